"""The timetable drawn: a row for each microwave, person, kit and mold, cups by their colors."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.shop.pour_day import PlannedCup, PlannedStep

ROW, BAR, TOP, FOOT = 40.0, 28.0, 8.0, 28.0
LEAST_WIDTH, PIXELS_A_MINUTE, RIGHT = 960.0, 7.0, 6.0
SWATCH = 12.0
# A bar narrower than these carries no swatch, or no word.
LEAST_SWATCH, LEAST_WORD, LEAST_LONG_WORD = 18.0, 34.0, 110.0
TICKS_MIN = (5, 10, 15, 30, 60)
TICK_PIXELS = 70.0


@dataclass(frozen=True, slots=True)
class Swatch:
    """A stripe of a cup's color."""

    color: str
    x: float
    width: float


@dataclass(frozen=True, slots=True)
class DayBar:
    """One stretch of time; `told` says it in full."""

    doing: str
    x: float
    y: float
    width: float
    word: str
    told: str
    swatches: tuple[Swatch, ...]
    begun: bool


@dataclass(frozen=True, slots=True)
class DayRow:
    """A row's name and where it stands."""

    name: str
    y: float


@dataclass(frozen=True, slots=True)
class DayTick:
    """A mark of time along the foot."""

    x: float
    word: str


@dataclass(frozen=True, slots=True)
class DayChart:
    """Coordinates; `now_x` is where the day stands, none before it begins."""

    width: float
    height: float
    bottom: float
    bar: float
    rows: tuple[DayRow, ...]
    bars: tuple[DayBar, ...]
    ticks: tuple[DayTick, ...]
    now_x: float | None


@dataclass(frozen=True, slots=True)
class _Scale:
    start_min: int
    minutes: float
    width: float

    def x(self, seconds: float) -> float:
        return round(self.width * seconds / 60 / self.minutes, 1)

    def clock(self, seconds: float) -> str:
        return clock_after(self.start_min, seconds)


def clock_after(start_min: int, seconds: float) -> str:
    """The wall's clock so long after the start of a day; past midnight it goes on from zero.

    >>> clock_after(9 * 60, 5400)
    '10:30'
    """
    minutes = start_min + int(seconds // 60)
    return f"{minutes // 60 % 24:02}:{minutes % 60:02}"


def day_chart(
    cups: Sequence[PlannedCup], steps: Sequence[PlannedStep], *, start_min: int,
    molds: dict[str, str], now_s: float | None = None,
) -> DayChart:  # fmt: skip
    """The picture of a timetable; `molds` gives their names by id."""
    minutes = max(s.end_s for s in steps) / 60
    scale = _Scale(start_min, minutes, max(LEAST_WIDTH, PIXELS_A_MINUTE * minutes))
    lanes = _lanes(steps, molds)
    places = {key: i for i, key in enumerate(lanes)}
    known = {cup.name: cup for cup in cups}
    bars = [
        _bar(scale, step, places[key], known.get(step.cup)) for step in steps for key in _keys(step)
    ]
    bottom = TOP + ROW * len(lanes)
    inside = now_s is not None and 0 <= now_s <= 60 * minutes
    return DayChart(
        scale.width + RIGHT,
        bottom + FOOT,
        bottom,
        BAR,
        tuple(DayRow(name, _y(i) + BAR / 2) for i, name in enumerate(lanes.values())),
        tuple(bars),
        _ticks(scale),
        scale.x(now_s) if inside and now_s is not None else None,
    )


def _keys(step: PlannedStep) -> list[tuple[str, str]]:
    """The rows a step stands in."""
    match step.doing:
        case "heat" | "rewarm":
            return [("microwave", str(step.lane)), ("kit", str(step.kit))]
        case "cool":
            return [("mold", step.mold)]
        case _:
            return [("person", str(step.lane)), ("kit", str(step.kit))]


def _lanes(steps: Sequence[PlannedStep], molds: dict[str, str]) -> dict[tuple[str, str], str]:
    """Names of the rows: microwaves, people, kits, molds."""
    keys = {key for step in steps for key in _keys(step)}
    order = ("microwave", "person", "kit", "mold")
    words = {"microwave": "Microwave", "person": "Hands", "kit": "Kit"}
    found: dict[tuple[str, str], str] = {}
    for sort in order:
        mine = sorted(k for k in keys if k[0] == sort)
        for key in mine:
            numbered = f"{words.get(sort, '')} {key[1]}" if len(mine) > 1 else words.get(sort, "")
            found[key] = molds.get(key[1], key[1]) if sort == "mold" else numbered
    return found


def _bar(scale: _Scale, step: PlannedStep, place: int, cup: PlannedCup | None) -> DayBar:
    x, end = scale.x(step.start_s), scale.x(step.end_s)
    width = max(end - x, 2.0)
    title = f"{cup.name}, {cup.title}" if cup else step.cup
    times = f"{scale.clock(step.start_s)} to {scale.clock(step.end_s)}"
    return DayBar(
        step.doing, x, _y(place), width, _word(step, width), f"{step.doing}: {title}, {times}",
        _swatches(cup, x, width), step.begun,
    )  # fmt: skip


def _word(step: PlannedStep, width: float) -> str:
    number = step.cup.removeprefix("Cup ")
    if width >= LEAST_LONG_WORD:
        return f"{number} {step.doing}"
    return number if width >= LEAST_WORD else ""


def _swatches(cup: PlannedCup | None, x: float, width: float) -> tuple[Swatch, ...]:
    if cup is None or width < LEAST_SWATCH:
        return ()
    colors = cup.colors.split()
    part = SWATCH / len(colors)
    return tuple(Swatch(c, round(x + 3 + i * part, 1), part) for i, c in enumerate(colors))


def _ticks(scale: _Scale) -> tuple[DayTick, ...]:
    a_minute = scale.width / scale.minutes
    step = next((t for t in TICKS_MIN if t * a_minute >= TICK_PIXELS), TICKS_MIN[-1])
    first = -scale.start_min % step
    return tuple(
        DayTick(scale.x(60 * m), scale.clock(60 * m))
        for m in range(first, int(scale.minutes) + 1, step)
    )


def _y(row: int) -> float:
    return TOP + ROW * row + (ROW - BAR) / 2
