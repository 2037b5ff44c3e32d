"""The temperature line of one cup, laid out for an SVG: bursts, band, readings, what is to come."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from pourwright.base.units import System, convert
from pourwright.heat.history import Did, Step
from pourwright.heat.line import LinePoint
from pourwright.heat.next_burst import NextBurstAnswer, ReadingVerdict

WIDTH, HEIGHT = 640.0, 300.0
LEFT, RIGHT, TOP, BOTTOM = 74.0, 14.0, 16.0, 34.0
LOW_C, HIGH_C = 0.0, 220.0
# What stands at the edge would be cut off.
_ROOM = 1.04
_LEAST_SPAN_S = 120.0
# Round numbers of the bench's own unit.
_DEGREES_C = {
    System.METRIC: (0.0, 50.0, 100.0, 150.0, 200.0),
    System.US: tuple(convert(f, "f", "c") for f in (100.0, 200.0, 300.0, 400.0)),
}
_MOST_TICKS = 6
_TICK_STEPS_MIN = (1, 2, 5, 10, 20, 30, 60, 120, 240, 480)


@dataclass(frozen=True, slots=True)
class Tick:
    """A labeled place on an axis; the value is in °C or minutes."""

    at: float
    value: float


@dataclass(frozen=True, slots=True)
class Burst:
    """A stretch with the oven on."""

    x: float
    width: float
    to_come: bool


@dataclass(frozen=True, slots=True)
class Dot:
    """A reading: where it stands, what was expected of it, whether it is doubted."""

    number: int
    x: float
    y: float
    low: float
    high: float
    doubted: bool
    side: str


@dataclass(frozen=True, slots=True)
class CupChart:
    """Coordinates in a box of 640 by 300; a stretch is empty where there is nothing to draw."""

    width: float
    height: float
    left: float
    right: float
    top: float
    bottom: float
    bursts: tuple[Burst, ...]
    past: str
    past_band: str
    coming: str
    coming_band: str
    dots: tuple[Dot, ...]
    target: Tick
    limit: Tick
    degrees: tuple[Tick, ...]
    minutes: tuple[Tick, ...]


@dataclass(frozen=True, slots=True)
class _Scale:
    span_s: float

    def x(self, seconds: float) -> float:
        return round(LEFT + (WIDTH - LEFT - RIGHT) * seconds / self.span_s, 1)


def cup_chart(answer: NextBurstAnswer, steps: tuple[Step, ...], system: System) -> CupChart:
    """Where everything stands; `steps` are timed, so that their lengths add up to the clock."""
    scale = _Scale(max([_LEAST_SPAN_S, *(p.at_s * _ROOM for p in answer.line)]))
    past = tuple(p for p in answer.line if not p.to_come)
    coming = tuple(p for p in answer.line if p.to_come)
    joined = (past[-1], *coming) if coming else ()
    return CupChart(
        WIDTH, HEIGHT, LEFT, WIDTH - RIGHT, TOP, HEIGHT - BOTTOM,
        bursts=(*_bursts(scale, steps), *_next_burst(scale, past[-1].at_s, answer.on_s)),
        past=_line(scale, past),
        past_band=_band(scale, past),
        coming=_line(scale, joined),
        coming_band=_band(scale, joined),
        dots=_dots(scale, steps, answer.readings),
        target=Tick(_y(answer.target_c), answer.target_c),
        limit=Tick(_y(answer.limit_c), answer.limit_c),
        degrees=tuple(Tick(_y(c), c) for c in _DEGREES_C[system]),
        minutes=_ticks(scale),
    )  # fmt: skip


def clocks(steps: Iterable[Step]) -> tuple[float, ...]:
    """When each reading among timed steps was taken, in seconds since the first step."""
    found, now = [], 0.0
    for step in steps:
        now += step.lasted_s
        if step.did is Did.READ:
            found.append(now)
    return tuple(found)


def _bursts(scale: _Scale, steps: tuple[Step, ...]) -> list[Burst]:
    found, now = [], 0.0
    for step in steps:
        if step.did is Did.HEATED:
            x = scale.x(now)
            found.append(Burst(x, round(scale.x(now + step.lasted_s) - x, 1), to_come=False))
        now += step.lasted_s
    return found


def _next_burst(scale: _Scale, now: float, on_s: float) -> list[Burst]:
    if not on_s:
        return []
    x = scale.x(now)
    return [Burst(x, round(scale.x(now + on_s) - x, 1), to_come=True)]


def _dots(
    scale: _Scale, steps: tuple[Step, ...], verdicts: tuple[ReadingVerdict, ...]
) -> tuple[Dot, ...]:
    return tuple(
        Dot(
            n,
            scale.x(at),
            _y(v.read_c),
            _y(v.expected_c.low),
            _y(v.expected_c.high),
            v.doubted,
            "end" if scale.x(at) > WIDTH / 2 else "start",
        )
        for n, (at, v) in enumerate(zip(clocks(steps), verdicts, strict=True), start=1)
    )


def _ticks(scale: _Scale) -> tuple[Tick, ...]:
    whole = scale.span_s / 60
    step = next((s for s in _TICK_STEPS_MIN if whole / s <= _MOST_TICKS), _TICK_STEPS_MIN[-1])
    return tuple(Tick(scale.x(m * 60), m) for m in range(0, int(whole) + 1, step))


def _line(scale: _Scale, points: tuple[LinePoint, ...]) -> str:
    return _joined((scale.x(p.at_s), _y(p.mean_c.typical)) for p in points)


def _band(scale: _Scale, points: tuple[LinePoint, ...]) -> str:
    upper = [(scale.x(p.at_s), _y(p.mean_c.high)) for p in points]
    lower = [(scale.x(p.at_s), _y(p.mean_c.low)) for p in points]
    return _joined([*upper, *reversed(lower)])


def _y(celsius: float) -> float:
    share = (min(max(celsius, LOW_C), HIGH_C) - LOW_C) / (HIGH_C - LOW_C)
    return round(HEIGHT - BOTTOM - (HEIGHT - TOP - BOTTOM) * share, 1)


def _joined(points: Iterable[tuple[float, float]]) -> str:
    return " ".join(f"{x:g},{y:g}" for x, y in points)
