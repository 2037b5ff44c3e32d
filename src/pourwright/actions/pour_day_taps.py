"""What the taps of the sheets tell of the cups of a pour day: heated, poured, opened, over."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from pourwright.actions.port import Bench
from pourwright.actions.pour_standing import pour_standing
from pourwright.bench import tap_kind as kind
from pourwright.bench.clock import seconds_between
from pourwright.bench.cup_story import POURED, WORKED, Happening
from pourwright.bench.tap_body import READ
from pourwright.shop.pour_day import PlannedCup, PourDay

HEATED = frozenset({kind.BEGUN, WORKED, READ})
OVER = frozenset({POURED, kind.DISCARDED})


@dataclass(slots=True)
class ToldWave:
    """A heating and its pour, in seconds from the start of the day; `inside` lie in molds yet."""

    heat_start_s: float
    hot_s: float | None = None
    first_s: float | None = None
    last_s: float | None = None
    filled: int = 0
    inside: int = 0


@dataclass(slots=True)
class ToldCup:
    """What was told of a cup of the day.

    A timetable knows no time before its start: what was tapped earlier counts from the start, and
    `early_s` is how much earlier the first of it was.
    """

    cup: PlannedCup
    waves: list[ToldWave] = field(default_factory=list)
    over: bool = False
    early_s: float = 0.0

    @property
    def filled(self) -> int:
        """Shots made."""
        return sum(w.filled for w in self.waves)

    @property
    def inside(self) -> int:
        """Shots that lie in their molds."""
        return sum(w.inside for w in self.waves)


def told_cups(bench: Bench, day: PourDay, owned: dict[str, int]) -> dict[str, ToldCup]:
    """Every cup of a frozen day, by name; `owned` counts the molds by their ids."""
    table = day.timetable
    found = {c.name: ToldCup(c) for c in (table.cups if table else ())}
    for place, batch in enumerate(day.batches):
        cups = [it for it in found.values() if it.cup.batch == place]
        sheet = bench.sheets.get(batch.sheet)
        _fold(cups, pour_standing(bench, sheet).kept, day.starts_at, owned[batch.mold])
    return found


def _fold(
    cups: Sequence[ToldCup], happenings: Iterable[Happening], starts_at: str, molds: int
) -> None:
    full: dict[int, ToldWave] = {}
    gone: set[int] = set()
    for it in happenings:
        since_start = seconds_between(starts_at, it.at)
        at = max(0.0, since_start)
        if it.kind == kind.OPENED:
            wave = full.pop(it.body["mold"], None)
            if wave is not None:
                wave.inside -= 1
            continue
        for told in cups:
            if not _about(told, it):
                continue
            told.early_s = max(told.early_s, -since_start)
            if it.kind in HEATED:
                _heated(told, at)
            elif it.kind == kind.HOT and told.waves:
                told.waves[-1].hot_s = at
            elif it.kind == kind.FILLED:
                full[it.body["mold"]] = _filled(told, at, molds)
            elif it.kind in OVER:
                gone.add(int(it.body["cup"]))
                told.over = gone.issuperset(told.cup.cups)


def _about(told: ToldCup, it: Happening) -> bool:
    if it.kind == kind.FILLED:
        return not {str(n) for n in told.cup.cups}.isdisjoint(it.body["drawn_g"])
    return it.body.get("cup") in told.cup.cups


def _heated(told: ToldCup, at: float) -> None:
    """Into the oven: a new wave once the one before was poured."""
    if not told.waves or told.waves[-1].filled:
        told.waves.append(ToldWave(at))


def _filled(told: ToldCup, at: float, molds: int) -> ToldWave:
    """One more mold; a wave fills no more molds than there are."""
    if not told.waves or told.waves[-1].filled == molds:
        told.waves.append(ToldWave(at, hot_s=at))
    wave = told.waves[-1]
    wave.first_s = at if wave.first_s is None else wave.first_s
    wave.last_s = at
    wave.filled += 1
    wave.inside += 1
    return wave
