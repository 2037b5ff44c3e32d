"""Where a cup stands after its history, over the draws, and what a further burst would do."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from pourwright.base.belief import Belief
from pourwright.base.draws import Array, Draws
from pourwright.heat import cup as cups
from pourwright.heat.cup import Cup, State
from pourwright.heat.history import Did, Step
from pourwright.heat.learn import BURST_SPREAD, CUP, MIXING_SPREAD_K, START, burst_name
from pourwright.heat.oven import LEARNED, NAMES, REFERENCE_LOAD_KG, Oven, believed_oven
from pourwright.heat.replay import STEP_S, Fill, replay, traced, under_load

_NEXT, _MIXING = "the next burst", "mixing"


@dataclass(frozen=True, slots=True)
class Held:
    """A cup in its oven: its state, itself, and the oven as its next burst has it.

    `mixing_k` is what a stir after it may leave the mean off the forecast.
    """

    state: State
    cup: Cup
    oven: Oven
    mixing_k: Array


@dataclass(frozen=True, slots=True)
class Standing(Held):
    """A cup after its history, with the hottest it has been and its mean over time.

    `unloaded` and `half_kg` are the oven before its load, `fill` the cup before its first step.
    """

    fill: Fill
    unloaded: Oven
    half_kg: Array
    plastic_kg: float
    peak_c: Array
    trace: tuple[tuple[float, Array], ...]


def standing(draws: Draws, joint: Belief, fill: Fill, steps: tuple[Step, ...]) -> Standing:
    """The cup over draws of a joint belief (see `learn.Fit`)."""
    about = joint.draw(draws)
    for name, doubt in LEARNED.items():
        draws.note_doubt(name, doubt)
    room = draws.known(fill.ambient_c)
    oven = believed_oven(draws, _of_oven(joint), plastic_kg=REFERENCE_LOAD_KG, ambient_c=room)
    oven = replace(oven, power_w=oven.power_w * np.exp(about[CUP]))
    half = np.exp(about["ln_load_half_kg"])
    bursts = {i: about[burst_name(i)] for i in range(len(joint.names) - len(NAMES) - 2)}
    past = replay(fill, steps, oven, half, start_k=about[START], bursts=bursts)
    ahead = replace(oven, power_w=oven.power_w * np.exp(next_noise(draws)))
    return Standing(
        state=past.state,
        cup=fill.cup(past.plastic_kg, room),
        oven=under_load(ahead, half, past.plastic_kg),
        mixing_k=MIXING_SPREAD_K * draws.scores(_MIXING),
        fill=fill,
        unloaded=ahead,
        half_kg=np.asarray(half),
        plastic_kg=past.plastic_kg,
        peak_c=past.peak_c,
        trace=past.trace,
    )


def further(now: Standing, steps: tuple[Step, ...]) -> Standing:
    """The same cup after rests, stirs and draws, none of which says anything of the oven."""
    trace, state, kg = list(now.trace), now.state, now.plastic_kg
    cup, oven = now.cup, now.oven
    for step in steps:
        match step.did:
            case Did.RESTED:
                state = traced(trace, state, cup, oven, step.lasted_s, on=False)
            case Did.STIRRED:
                state = cups.stirred(state)
            case Did.DRAWN:
                kg -= (step.mass_g or 0.0) / 1000
                cup = now.fill.cup(kg, now.half_kg)
                oven = under_load(now.unloaded, now.half_kg, kg)
            case _:
                raise ValueError(f"a cup that was {step.did} is replayed from its start")
    return replace(now, state=state, cup=cup, oven=oven, plastic_kg=kg, trace=tuple(trace))


def next_noise(draws: Draws) -> Array:
    """What the reduced cup may miss of the burst to come, as the logarithm of its power."""
    return np.asarray(BURST_SPREAD * draws.scores(_NEXT))


def after_burst(now: Held, seconds: float, rest_s: float) -> tuple[State, State]:
    """The state at switch-off, and after the rest and a stir."""
    hot = cups.burst(now.state, now.cup, now.oven, seconds, step_s=STEP_S)
    rested = cups.advance(hot, now.cup, now.oven, rest_s, on=False, step_s=2 * STEP_S)
    return hot, cups.stirred(rested)


def _of_oven(joint: Belief) -> Belief:
    """The oven's part of a joint belief: its first names.

    A Cholesky root of the whole starts with that of the part, so that draws agree.
    """
    n = len(NAMES)
    rows = tuple(row[:n] for row in joint.covariance[:n])
    return Belief(joint.model, joint.version, joint.names[:n], joint.mean[:n], rows)
