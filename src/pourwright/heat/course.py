"""The course of a cook: the states a list of bursts leads through, and what happens on it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array
from pourwright.base.errors import NoAnswer
from pourwright.base.field import flag, number
from pourwright.base.record import Record
from pourwright.heat import cup as cups
from pourwright.heat.cup import (
    BOTTOM,
    HEATS_AFTER_S,
    HOTTEST_KNOWN_C,
    HOTTEST_TABLED_C,
    MEAN,
    Cup,
    State,
)
from pourwright.heat.oven import Oven

SHOWN_EVERY_S = 15.0
JELLY_GELLED = 0.5
STIRRABLE_FUSED = 0.5
FULLY_FUSED = 0.95


@dataclass(frozen=True, slots=True, kw_only=True)
class Burst(Record):
    """Seconds on the oven's clock, then seconds of rest, then perhaps a stir."""

    on_s: float = number("Time on", low=0, high=1200)
    rest_s: float = number("Rest before the stir", low=0, high=3600, default=20)
    stir: bool = flag("Stirred after the rest", default=True)


@dataclass(frozen=True, slots=True)
class Course:
    """Times and states, one every quarter of a minute and one on each side of a stir."""

    at_s: tuple[float, ...]
    states: tuple[State, ...]

    def hottest_q95_c(self) -> Array:
        """95th percentile of the hottest place at each moment."""
        return cups.q95(np.stack([s.hottest_c for s in self.states]))

    def typical(self, zones: str, zone: int) -> list[float]:
        """Share `gelled` or `fused` of a zone at each moment, on the typical draw."""
        return [float(getattr(s, zones)[zone, 0]) for s in self.states]


@dataclass(frozen=True, slots=True)
class Happening:
    """What happens first at a moment."""

    at_s: float
    what: str


def course(cup: Cup, oven: Oven, start: State, bursts: tuple[Burst, ...]) -> Course:
    """The states under a list of bursts.

    Raises: NoAnswer where the cup would get hotter than the model knows.
    """
    at, state = 0.0, start
    times, states = [at], [state]
    for burst in bursts:
        cold = min(HEATS_AFTER_S, burst.on_s)
        parts = ((cold, False), (burst.on_s - cold, True), (burst.rest_s, False))
        for seconds, on in parts:
            left = seconds
            while left > 1e-9:
                dt = min(SHOWN_EVERY_S, left)
                state = cups.advance(state, cup, oven, dt, on=on)
                at, left = at + dt, left - dt
                times.append(at)
                states.append(state)
            _refuse_fire(state, at)
        if burst.stir:
            state = cups.stirred(state)
            times.append(at)
            states.append(state)
    return Course(tuple(times), tuple(states))


def happenings(course: Course, *, limit_c: float, target_c: float) -> tuple[Happening, ...]:
    """First times of gel, stirrable, fused, target and over limit.

    All but the limit follow the typical draw; the limit is on the 95th percentile.
    """
    gelled, fused = course.typical("gelled", MEAN), course.typical("fused", MEAN)
    bottom = course.typical("fused", BOTTOM)
    tests = {
        "gel": [g > JELLY_GELLED for g in gelled],
        "stirrable": [f > STIRRABLE_FUSED for f in fused],
        "fused": [min(f, b) > FULLY_FUSED for f, b in zip(fused, bottom, strict=True)],
        "target": [bool(s.mean_c[0] >= target_c) for s in course.states],
        "over limit": [bool(h > limit_c) for h in course.hottest_q95_c()],
    }
    firsts = [
        Happening(course.at_s[hits.index(True)], what) for what, hits in tests.items() if any(hits)
    ]
    return tuple(sorted(firsts, key=lambda h: h.at_s))


def bands(rows: list[Array]) -> list[Band]:
    """The band of each row of draws, all at once."""
    values = np.stack(rows)
    typical = values[:, 0]
    low, high = np.quantile(values[:, 1:], [0.05, 0.95], axis=1)
    ends = zip(np.minimum(low, typical), typical, np.maximum(high, typical), strict=True)
    return [Band(float(a), float(b), float(c)) for a, b, c in ends]


def _refuse_fire(state: State, at_s: float) -> None:
    typical, high = float(state.hottest_c[0]), float(cups.q95(state.hottest_c))
    if typical > HOTTEST_KNOWN_C or high > HOTTEST_TABLED_C - 100:
        raise NoAnswer(
            f"after {at_s:.0f} s the hottest place would be above {HOTTEST_KNOWN_C:g} °C, where "
            "plastic smokes and burns: shorten the bursts or check power and batch"
        )
