"""What a timed full shot says of how the plastic flows."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

import numpy as np

from pourwright.base.assume import left_out
from pourwright.base.band import Band, exact
from pourwright.base.calc import calculation
from pourwright.base.draws import Z90, Array, Draws
from pourwright.base.errors import NoAnswer
from pourwright.base.field import number, out, parts
from pourwright.base.record import Record
from pourwright.base.source import estimate
from pourwright.fill.fill_input import FillInput
from pourwright.fill.fill_words import WEARING
from pourwright.fill.march import march
from pourwright.fill.odds import ODDS_SOURCES
from pourwright.fill.setup import melt_doubt, one_push, setup_of
from pourwright.matter.flow import MELT_PA_S

# Standard deviations of logarithms: one push against the next of the same hand, and what the flow
# model itself may be off however many shots are timed: estimates.
_PUSH_VARIES, _SUREST = 0.15, 0.15
# Draws of what the shot does not tell, and viscosities tried over the prior.
_DRAWS, _TRIED, _REACH = 80, 21, 2.6
# So many standard deviations off at best, a shot belongs to another mold or push.
_TOO_FAR = 4.0
# Shots that leave more than this share of the doubt hardly tell anything.
_FLAT = 0.9


@dataclass(frozen=True, slots=True, kw_only=True)
class TimedShot(Record):
    """One full shot by the stopwatch."""

    fill_s: float = number("From the first push until the mold was full", low=0.1, high=60)
    melt_c: float | None = number(
        "Plastic at that push; left out, that of the input", low=100, high=220, default=None
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class TimedShotInput(FillInput):
    """A mold, a push, and the times of full shots; `melt_pa_s` is the belief from last time."""

    shots: tuple[TimedShot, ...] = parts("Full shots that were timed", least=1, most=8)
    watch_s: float = number(
        "How far the stopwatch may be off (standard deviation)", low=0.02, high=5, default=0.2
    )


@dataclass(frozen=True, slots=True)
class TimedShotAnswer:
    """A belief for that plastic, ready for the next question."""

    melt_pa_s: Band = out("Viscosity of the fused plastic at 170 °C, for fill.odds")
    factor_before: float = out("How many times too high or low it could be before")
    factor_now: float = out("How many times too high or low it may be now")
    notes: tuple[str, ...] = out("What it rests on, what would narrow it, cautions")


@calculation(
    "fill.timed_shot",
    purpose="how the plastic flows, from timed full shots",
    sources=(
        *ODDS_SOURCES,
        estimate(
            f"pushes of one hand vary by {_PUSH_VARIES:.0%}; the flow model is off by {_SUREST:.0%}"
        ),
    ),
    example={
        "chain": [
            {"length_mm": 40, "width_mm": 8, "thick_mm": 8, "copies": 1, "part": "sprue"},
            {"length_mm": 22, "width_mm": 6, "thick_mm": 6, "copies": 2, "part": "runner"},
            {"length_mm": 4, "width_mm": 4, "thick_mm": 4, "copies": 3, "part": "gate"},
            {"length_mm": 75, "width_mm": 9, "thick_mm": 9, "copies": 3},
            {"length_mm": 40, "width_mm": 7, "thick_mm": 7, "copies": 3},
            {"length_mm": 35, "width_mm": 4, "thick_mm": 4, "copies": 3},
        ],
        "cavities": 3,
        "air": "vents",
        "melt_c": 165,
        "mold_c": 30,
        "bore_mm": 35,
        "push_n": 110,
        "shots": [{"fill_s": 1.4}, {"fill_s": 1.6}],
    },
)
def fill_timed_shot(inputs: TimedShotInput) -> TimedShotAnswer:
    """Bayes over a grid of viscosities; push, setting and the rest are drawn and summed over.

    Raises: NoAnswer where no viscosity within reach fills the mold in that time.
    """
    draws = Draws(seed=inputs.seed, count=_DRAWS)
    mean, spread = _prior(inputs.melt_pa_s)
    tried = mean + spread * np.linspace(-_REACH, _REACH, _TRIED)
    guess = np.exp(-0.5 * ((tried - mean) / spread) ** 2)
    told = _likely(draws, inputs, np.exp(tried))
    surest = _surest(draws, inputs)
    weight = guess * told / (guess @ told)
    center = float(weight @ tried)
    found = math.sqrt(float(weight @ (tried - center) ** 2))
    now = min(max(found, surest), max(spread, found))
    return TimedShotAnswer(
        melt_pa_s=_band(center, now),
        factor_before=math.exp(Z90 * spread),
        factor_now=math.exp(Z90 * now),
        notes=(
            *left_out(inputs, unused=inputs.unused),
            *_words(now, spread),
        ),
    )


def _prior(found: Band | None) -> tuple[float, float]:
    """Mean and standard deviation of the logarithm before the shots."""
    low, typical, high = MELT_PA_S.ends if found is None else (found.low, found.typical, found.high)
    spread = (math.log(high) - math.log(low)) / 2 / Z90
    return math.log(typical), max(spread, 0.5 * _SUREST)


def _surest(draws: Draws, inputs: TimedShotInput) -> float:
    """How sure any number of shots can make, those behind the prior included.

    All of them share what is off in the push and the bore: only the first look at a plastic, at
    its typical band, is free of it.
    """
    _, first = _prior(None)
    pressure = one_push(draws, inputs).drive().pressure_pa
    shared = float(np.log(pressure[1:]).std())
    return max(_SUREST, first * shared / math.hypot(first, shared))


def _band(center: float, spread: float) -> Band:
    reach = Z90 * spread
    return Band(math.exp(center - reach), math.exp(center), math.exp(center + reach))


def _likely(draws: Draws, inputs: TimedShotInput, tried: Array) -> Array:
    """How likely the times are at each viscosity, up to one factor; the draws summed over.

    Raises: NoAnswer where even the best of them misses.
    """
    logs = np.zeros((len(tried), draws.count))
    for melt_c in sorted({_melt_c(inputs, s) for s in inputs.shots}):
        seconds = _seconds(draws, inputs, melt_c, tried)
        for shot in inputs.shots:
            if _melt_c(inputs, shot) == melt_c:
                off = math.log(shot.fill_s) - np.log(seconds)
                logs -= 0.5 * (off / math.hypot(inputs.watch_s / shot.fill_s, _PUSH_VARIES)) ** 2
    if logs.max() < -0.5 * _TOO_FAR**2 * len(inputs.shots):
        raise NoAnswer(
            "no viscosity within reach of what was believed fills this mold in that time: check "
            "the chain, the bore, the push and the temperatures, or whether the shot was full"
        )
    return np.asarray(np.exp(logs - logs.max()).mean(axis=1))


def _melt_c(inputs: TimedShotInput, shot: TimedShot) -> float:
    return inputs.melt_c if shot.melt_c is None else shot.melt_c


def _seconds(draws: Draws, inputs: TimedShotInput, melt_c: float, tried: Array) -> Array:
    """Time to fill at each viscosity in each draw; endless where it stays short."""
    setup = setup_of(
        draws, inputs, inputs, melt_c=melt_c + melt_doubt(draws, inputs.melt_doubt_k),
        melt_pa_s=exact(1.0),
    )  # fmt: skip
    unit = setup.shot()
    rows = []
    for viscosity in tried:
        front = march(replace(unit, viscosity_pa_s=unit.viscosity_pa_s * viscosity))
        rows.append(np.where(front.going, front.clock_s, np.inf)[1:])
    return np.stack(rows)


def _words(now: float, before: float) -> Iterable[str]:
    if now > _FLAT * before:
        yield (
            "These times hardly tell the viscosity: the plunger's own speed or the skin decides. "
            "Time a shot of a longer or thinner mold, pushed as hard and steadily as always."
        )
    yield (
        "A shot tells push over viscosity: it counts for the same hand and injector. To narrow it, "
        "push on a bathroom scale, measure the bore, and time more shots."
    )
    yield "Time what you shoot anyway: never shoot hotter or harder for a reading."
    yield WEARING
