"""What the cups taught of an oven, drawn: effective power with its range, cup by cup."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.oven_learned import OvenLearned
from pourwright.base.band import Band
from pourwright.base.units import UNITS
from pourwright.web.show import Settings, shown

WIDE, TALL, LEFT, EDGE = 640.0, 220.0, 66.0, 30.0
_STEPS_W = (10, 20, 50, 100, 200, 500)
_MOST_LINES = 5


@dataclass(frozen=True, slots=True)
class Bar:
    """One cup: its own power with its range, and what was believed before it."""

    x: float
    y: float
    low: float
    high: float
    before_low: float
    before_high: float
    label: str
    address: str
    power: str
    range: str
    words: str
    drifted: bool


@dataclass(frozen=True, slots=True)
class OvenChart:
    """Bars in a box of 640 by 220 over labeled lines, and the words under it."""

    width: float
    height: float
    left: float
    half: float
    bars: tuple[Bar, ...]
    lines: tuple[tuple[float, int], ...]
    words: str
    test_due: str


def oven_chart(learned: OvenLearned, settings: Settings) -> OvenChart:
    """The cups of an oven, oldest first."""
    bands = [b for it in learned.lessons for b in (it.power_w, it.before_w)]
    low, high = _ends(bands)
    room = (WIDE - LEFT - EDGE) / max(len(learned.lessons), 1)
    bars = tuple(
        _bar(learned, i, LEFT + (i + 0.5) * room, (low, high), settings)
        for i in range(len(learned.lessons))
    )
    lines = tuple((_y(w, (low, high)), w) for w in _round_watts(low, high))
    return OvenChart(
        WIDE, TALL, LEFT, round(min(room * 0.3, 24.0), 1), bars, lines,
        _words(learned), learned.test_due or "",
    )  # fmt: skip


def _bar(
    learned: OvenLearned, i: int, x: float, ends: tuple[float, float], settings: Settings
) -> Bar:
    lesson, cup = learned.lessons[i], learned.cups[i]
    power = shown(lesson.power_w, UNITS["w"], settings)
    return Bar(
        x=round(x, 1),
        y=_y(lesson.power_w.typical, ends),
        low=_y(lesson.power_w.low, ends),
        high=_y(lesson.power_w.high, ends),
        before_low=_y(lesson.before_w.low, ends),
        before_high=_y(lesson.before_w.high, ends),
        label=f"Lot {cup.lot}, cup {cup.number}",
        address=f"/sheets/{cup.sheet}/cups/{cup.number}",
        power=power.value,
        range=power.range,
        words=_apart(lesson.changed_share, drifted=lesson.drifted),
        drifted=lesson.drifted,
    )


def _apart(share: float, *, drifted: bool) -> str:
    size = f"{abs(share):.0%}".replace("%", "\N{NO-BREAK SPACE}%")
    if abs(share) < 0.01:
        return "as was believed before it"
    side = "more" if share > 0 else "less"
    return f"{size} {side} than was believed before it" + (": beyond chance" if drifted else "")


def _words(learned: OvenLearned) -> str:
    count = len(learned.lessons)
    if not count:
        return ""
    cups = "1 cup" if count == 1 else f"{count} cups"
    narrower = learned.narrowed_share
    if narrower > 0:
        return f"{cups} followed: the range is {narrower:.0%} narrower than without them."
    return f"{cups} followed."


def _ends(bands: list[Band]) -> tuple[float, float]:
    low = min((b.low for b in bands), default=0.0)
    high = max((b.high for b in bands), default=1.0)
    room = 0.1 * (high - low)
    return low - room, high + room


def _round_watts(low: float, high: float) -> list[int]:
    step = next((s for s in _STEPS_W if (high - low) / s <= _MOST_LINES), _STEPS_W[-1])
    first = int(low // step + 1) * step
    return list(range(first, int(high) + 1, step))


def _y(watts: float, ends: tuple[float, float]) -> float:
    low, high = ends
    return round(TALL - EDGE - (watts - low) / (high - low) * (TALL - 1.5 * EDGE), 1)
