"""A cup's history replayed by the reduced cup, under many parameter values at once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from pourwright.base.draws import Array
from pourwright.heat import cup as cups
from pourwright.heat.cup import Cup, State
from pourwright.heat.history import Did, Instrument, Step
from pourwright.heat.oven import Oven, loaded_power
from pourwright.matter.plastisol import COLD_DENSITY_G_ML

USUAL_ROOM_C = 22.0
STEP_S = 5.0
SHOWN_EVERY_S = 20.0
# A cup at rest for longer than this cools ever more slowly.
_BRISK_S, _SLOWEST = 120.0, 8.0


@dataclass(frozen=True, slots=True)
class Fill:
    """What a cup held before its first step, and the cup itself; all taken as known."""

    plastic_g: float
    start_c: float
    ambient_c: float
    glass_g: float
    diameter_mm: float
    cold_g_ml: float

    def cup(self, plastic_kg: float, like: Array) -> Cup:
        """The cup with so much plastic, in the shape of `like`."""
        return cups.filled_cup(
            plastic_kg=plastic_kg,
            cold_g_ml=np.full_like(like, self.cold_g_ml),
            glass_kg=np.full_like(like, self.glass_g / 1000),
            diameter_m=np.full_like(like, self.diameter_mm / 1000),
        )


def usual_fill(
    *,
    plastic_g: float,
    start_c: float | None,
    ambient_c: float | None,
    glass_g: float,
    diameter_mm: float,
) -> Fill:
    """A cup before its first step; start and room are usual where nobody measured."""
    return Fill(
        plastic_g=plastic_g,
        start_c=USUAL_ROOM_C if start_c is None else start_c,
        ambient_c=USUAL_ROOM_C if ambient_c is None else ambient_c,
        glass_g=glass_g,
        diameter_mm=diameter_mm,
        cold_g_ml=COLD_DENSITY_G_ML.typical,
    )


@dataclass(frozen=True, slots=True)
class Replay:
    """Where a cup stands after its history.

    `reads` holds what each reading should have shown, shape (readings, draws); `peak_c` is the
    hottest place of all bursts; `trace` the mean over time, one every twenty seconds (less often in
    a long rest) and one at every change.
    """

    state: State
    plastic_kg: float
    reads: Array
    peak_c: Array
    trace: tuple[tuple[float, Array], ...]


def replay(
    fill: Fill,
    steps: tuple[Step, ...],
    oven: Oven,
    load_half_kg: Array,
    *,
    start_k: Array,
    bursts: Mapping[int, Array],
) -> Replay:
    """The states a history leads through.

    `oven.power_w` holds for the reference load; `start_k` is added to the start; `bursts` holds
    the natural logarithm of each burst's power against the oven's, by its number from 0.
    """
    started = cups.hot_start if fill.start_c >= cups.COOKED_ABOVE_C else cups.cold_start
    kg, state = fill.plastic_g / 1000, started(fill.start_c + start_k)
    cup, here = fill.cup(kg, start_k), under_load(oven, load_half_kg, kg)
    reads: list[Array] = []
    trace = [(0.0, state.mean_c)]
    peak, burst = state.hottest_c, 0
    for step in steps:
        if step.did is Did.HEATED:
            lit = replace(here, power_w=here.power_w * np.exp(bursts.get(burst, 0.0)))
            cold = min(cups.HEATS_AFTER_S, step.lasted_s)
            state = traced(trace, state, cup, lit, cold, on=False)
            state = traced(trace, state, cup, lit, step.lasted_s - cold, on=True)
            peak, burst = np.maximum(peak, state.hottest_c), burst + 1
        elif step.did is Did.RESTED:
            state = traced(trace, state, cup, here, step.lasted_s, on=False)
        elif step.did is Did.STIRRED:
            state = cups.stirred(state)
        elif step.did is Did.READ:
            reads.append(reading_of(step, state, here))
        else:
            change = (step.mass_g or 0.0) / 1000
            if step.did is Did.ADDED:
                state = cups.added_to(state, kg, change, step.added_c)
                trace.append((trace[-1][0], state.mean_c))
            kg += change if step.did is Did.ADDED else -change
            cup, here = fill.cup(kg, start_k), under_load(oven, load_half_kg, kg)
    none = np.zeros((0, *start_k.shape))
    return Replay(state, kg, np.stack(reads) if reads else none, peak, tuple(trace))


def traced(
    trace: list[tuple[float, Array]],
    state: State,
    cup: Cup,
    oven: Oven,
    seconds: float,
    *,
    on: bool,
) -> State:
    """The cup after some seconds; its mean on the way is put at the end of `trace`.

    The longer it has rested, the longer the steps.
    """
    at, left = trace[-1][0], seconds
    while left > 1e-9:
        slow = 1.0 if on else max(1.0, min((seconds - left) / _BRISK_S, _SLOWEST))
        span = min(SHOWN_EVERY_S * slow, left)
        step_s = STEP_S if on else 2 * STEP_S * slow
        state = cups.advance(state, cup, oven, span, on=on, step_s=step_s)
        at, left = at + span, left - span
        trace.append((at, state.mean_c))
    return state


def reading_of(step: Step, state: State, oven: Oven) -> Array:
    """What the thermometer of a step should show."""
    if step.instrument is Instrument.PROBE:
        return cups.probe_reading(state, oven)
    if step.while_stirring:
        return cups.stirring_reading(state, oven)
    return cups.reading(state, oven)


def under_load(oven: Oven, load_half_kg: Array, plastic_kg: float) -> Oven:
    """The oven under another load; its power holds for the reference load."""
    return replace(oven, power_w=loaded_power(oven.power_w, load_half_kg, plastic_kg))
