"""What a pour day has to fill, with what, and what has been begun already.

Times are whole seconds from the start of the day. A cup names the molds it fills; how often it
goes back into the microwave follows from how many of each mold there are (`wave_split.py`).
To plan anew while the day runs, hand over the same cups, `now_s`, and in `begun` the waves as
they really went; only what is left is planned.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from pourwright.base.errors import BadInput
from pourwright.base.field import number, parts, text
from pourwright.base.record import Record

DAY_S = 24 * 3600
MOST_CUPS = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class DayMold(Record):
    """Molds of one sort."""

    name: str = text("Mold", most=64)
    count: int = number("How many of it there are", low=1, high=50, default=1)
    cool_s: int = number("From the end of the pour until it can be opened", low=0, high=7200)


@dataclass(frozen=True, slots=True, kw_only=True)
class DayFill(Record):
    """Shots of a cup into molds of one sort."""

    mold: str = text("Name of the mold", most=64)
    shots: int = number("Shots, one mold each", low=1, high=100, default=1)
    pour_s: int = number("Loading the injector and pouring one shot", low=1, high=3600)


@dataclass(frozen=True, slots=True, kw_only=True)
class DayCup(Record):
    """A cup of one color: what it fills, how long it heats, when it is due."""

    name: str = text("Cup", most=64)
    heat_s: int = number("Microwave time until it can be poured", low=1, high=7200)
    shade: int = number("How dark, 0 lightest to 100 darkest", low=0, high=100, default=0)
    due_min: int | None = number(
        "When its baits are due out of the molds; left out: any time",
        low=0, high=DAY_S // 60, default=None,
    )  # fmt: skip
    fills: tuple[DayFill, ...] = parts("What it fills", most=20)


@dataclass(frozen=True, slots=True, kw_only=True)
class Poured(Record):
    """Shots that have gone into molds of one sort."""

    mold: str = text("Name of the mold", most=64)
    shots: int = number("Shots", low=1, high=100, default=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class BegunWave(Record):
    """One heating and its pour as they went; an end after `now_s` is when it is expected."""

    heat_start_s: int = number("Into the microwave", low=0, high=DAY_S)
    heat_end_s: int = number("Hot enough to pour", low=0, high=DAY_S)
    pour_start_s: int | None = number("Pour begun", low=0, high=DAY_S, default=None)
    pour_end_s: int | None = number("Last mold filled", low=0, high=DAY_S, default=None)
    poured: tuple[Poured, ...] = parts("What the pour fills", most=20)

    def check(self) -> None:
        """Refuse times that run backward, and half a pour."""
        told = [self.heat_start_s, self.heat_end_s]
        if (self.pour_start_s is None) != (self.pour_end_s is None):
            raise BadInput("pour_end_s", self.pour_end_s, "goes together with pour_start_s")
        if self.pour_start_s is not None and self.pour_end_s is not None:
            told += [self.pour_start_s, self.pour_end_s]
        if told != sorted(told):
            raise BadInput("heat_start_s", self.heat_start_s, f"times run backward: {told}")
        if self.poured and self.pour_start_s is None:
            raise BadInput("poured", len(self.poured), "needs the times of the pour")


@dataclass(frozen=True, slots=True, kw_only=True)
class BegunCup(Record):
    """A cup that has been begun, or done."""

    cup: str = text("Name of the cup", most=64)
    kit: int = number("Number of the injector kit it runs on", low=1, high=20)
    waves: tuple[BegunWave, ...] = parts("Its heatings so far, in order", least=1, most=50)

    def check(self) -> None:
        """Refuse a heating that begins before the pour before it has ended."""
        for i, (wave, later) in enumerate(zip(self.waves, self.waves[1:], strict=False)):
            if wave.pour_end_s is not None and later.heat_start_s < wave.pour_end_s:
                raise BadInput(
                    f"waves[{i + 1}].heat_start_s", later.heat_start_s,
                    "is before the end of the pour before it",
                )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class BegunClean(Record):
    """A clean-up of a kit that has been begun, or done."""

    kit: int = number("Number of the injector kit", low=1, high=20)
    start_s: int = number("Begun", low=0, high=DAY_S)
    end_s: int = number("Clean, or expected to be", low=0, high=DAY_S)

    def check(self) -> None:
        """Refuse a clean-up that ends before it begins."""
        if self.end_s < self.start_s:
            raise BadInput("end_s", self.end_s, "is before its start")


@dataclass(frozen=True, slots=True, kw_only=True)
class DayInput(Record):
    """Cups, molds, what else there is of everything, and what matters."""

    cups: tuple[DayCup, ...] = parts("Cups to pour", least=1, most=MOST_CUPS)
    molds: tuple[DayMold, ...] = parts("Molds there are", least=1, most=60)
    microwaves: int = number("Microwaves", low=1, high=8, default=1)
    hands: int = number("People who pour and clean", low=1, high=8, default=1)
    kits: int = number("Kits of cup and injector", low=1, high=20, default=1)
    hold_s: int = number(
        "Longest that a heated cup may wait before its pour", low=0, high=3600, default=180
    )
    rewarm_s: int = number("Heating a cup once more between pours", low=0, high=3600, default=60)
    pour_most_s: int | None = number(
        "Longest pouring on one heating; left out: no limit", low=1, high=7200, default=None
    )
    clean_s: int = number("Clean-up of a kit before a lighter color", low=0, high=7200, default=360)
    span_weight: int = number(
        "Points a minute until the last mold is opened", low=0, high=1000, default=20
    )
    late_weight: int = number("Points a minute that a cup is late", low=0, high=1000, default=40)
    clean_weight: int = number("Points a clean-up", low=0, high=10_000, default=15)
    now_s: int = number("Nothing new begins before", low=0, high=DAY_S, default=0)
    begun: tuple[BegunCup, ...] = parts("Cups begun already", most=MOST_CUPS)
    cleaned: tuple[BegunClean, ...] = parts("Clean-ups begun already", most=MOST_CUPS)
    effort: float = number(
        "How long to search: 0 takes the best rule at once, 20 is some twenty seconds of two cores",
        low=0, high=120, default=20,
    )  # fmt: skip
    seed: int = number("Seed of the search", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse names that stand twice or lead nowhere, and facts that cannot be."""
        _refuse_twice("molds", (m.name for m in self.molds))
        _refuse_twice("cups", (c.name for c in self.cups))
        _refuse_twice("begun", (b.cup for b in self.begun), field="cup")
        for i, cup in enumerate(self.cups):
            self._check_cup(cup, f"cups[{i}]")
        for i, begun in enumerate(self.begun):
            self._check_begun(begun, f"begun[{i}]")
        for i, clean in enumerate(self.cleaned):
            _refuse_kit(clean.kit, self.kits, f"cleaned[{i}].kit")

    def _check_cup(self, cup: DayCup, where: str) -> None:
        if not cup.fills and cup.name not in {b.cup for b in self.begun}:
            raise BadInput(f"{where}.fills", 0, "name at least one mold that it fills")
        molds = {m.name for m in self.molds}
        for i, fill in enumerate(cup.fills):
            if fill.mold not in molds:
                raise BadInput(f"{where}.fills[{i}].mold", fill.mold, "is not among the molds")
            if self.pour_most_s is not None and fill.pour_s > self.pour_most_s:
                raise BadInput(
                    f"{where}.fills[{i}].pour_s", fill.pour_s,
                    f"is longer than the {self.pour_most_s} s that one heating may be poured",
                )  # fmt: skip
        _refuse_twice(f"{where}.fills", (f.mold for f in cup.fills), field="mold")

    def _check_begun(self, begun: BegunCup, where: str) -> None:
        cup = next((c for c in self.cups if c.name == begun.cup), None)
        if cup is None:
            raise BadInput(f"{where}.cup", begun.cup, "is not among the cups")
        _refuse_kit(begun.kit, self.kits, f"{where}.kit")
        for i, wave in enumerate(begun.waves):
            if wave.heat_start_s > self.now_s or (wave.pour_start_s or 0) > self.now_s:
                raise BadInput(f"{where}.waves[{i}]", wave.heat_start_s, "begins after now_s")
        planned = {f.mold: f.shots for f in cup.fills}
        for mold in dict.fromkeys(p.mold for w in begun.waves for p in w.poured):
            shots = sum(p.shots for w in begun.waves for p in w.poured if p.mold == mold)
            if shots > planned.get(mold, 0):
                raise BadInput(
                    f"{where}.waves", shots,
                    f"shots into {mold} are more than the {planned.get(mold, 0)} the cup fills",
                )  # fmt: skip


def _refuse_twice(where: str, names: Iterable[str], field: str = "name") -> None:
    seen: set[str] = set()
    for i, name in enumerate(names):
        if name in seen:
            raise BadInput(f"{where}[{i}].{field}", name, "stands there twice")
        seen.add(name)


def _refuse_kit(kit: int, kits: int, field: str) -> None:
    if kit > kits:
        raise BadInput(field, kit, f"there are only {kits} kits")
