"""Will two layers of a bait hold together, and where does the line between colors come to lie."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.assume import width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.field import number, out, parts
from pourwright.base.record import Record
from pourwright.base.source import PRACTICE, memory, published
from pourwright.fill.peel import PEEL_SOURCE, PeelTest, learned
from pourwright.matter import plastisol
from pourwright.matter.flow import MELT_SLOPE_K, melt_viscosity_pa_s
from pourwright.physics.conduction import contact_c
from pourwright.physics.two_layer import line_for

# Odds from which on peel tests settle the matter, and how near one of them has to be.
_SURE, _NEAR_K = 0.8, 5.0
# Colder plastic does not run, so its viscosity is taken from there: coldest that is shot.
_COLDEST_SHOT_C = 140.0


class Verdict(StrEnum):
    """What to expect of the layers."""

    WELD = "weld"
    DOUBTFUL = "doubtful"
    PEELS = "peels"


@dataclass(frozen=True, slots=True, kw_only=True)
class JoinInput(Record):
    """Two layers of one plastic, at the moment they meet."""

    first_c: float = number("Face of the layer that is there", low=0, high=220)
    second_c: float = number("Plastic that comes onto it", low=100, high=220)
    doubt_k: float = number(
        "How far each may be off either way, nine times in ten", low=0, high=40, default=8
    )
    peel_tests: tuple[PeelTest, ...] = parts("Own peel tests of this plastic", most=60)
    first_flow_share: float = number(
        "Shot together: share of the flow that is the first color, 0 to 1",
        low=0.02, high=0.98, default=0.5,
    )  # fmt: skip
    second_thicker_times: float | None = number(
        "Shot together: how many times as viscous as the first the second is; left out, by their "
        "temperatures", low=0.05, high=20, default=None,
    )  # fmt: skip
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)


@dataclass(frozen=True, slots=True)
class JoinAnswer:
    """How they meet, and what that promises."""

    join_c: Band = out("Temperature at which the layers meet")
    holds: Band = out("Odds that they hold, 0 to 1; an estimate until peel tests say so")
    verdict: Verdict = out("weld or peels where own peel tests settle it, else doubtful")
    first_thick_share: Band | None = out(
        "Share of the thickness that the first color takes when both are shot together, 0 to 1; "
        "null where the first has set"
    )
    notes: tuple[str, ...] = out("What dominates, what would narrow it, cautions")


@calculation(
    "fill.join",
    purpose="will two layers hold together, and where the color line comes to lie",
    sources=(
        published("Incropera and DeWitt, 6th ed., eq. 5.63: touch of two bodies"),
        memory("Bird, Stewart and Lightfoot, 2nd ed. (2002), sec. 2.5: two liquids in one slot"),
        PEEL_SOURCE,
        PRACTICE,
    ),
    example={"first_c": 140, "second_c": 175},
)
def fill_join(inputs: JoinInput) -> JoinAnswer:
    """Two layers of one plastic meet at the mean of their temperatures.

    How surely they hold there is a logistic curve: a guess until own peel tests move it. The line
    between two colors shot together is that of two liquids in one slot.
    """
    draws = Draws(seed=inputs.seed)
    first_c, second_c = _layers(draws, inputs)
    give = plastisol.effusivity(
        plastisol.CONDUCTIVITY_W_MK.drawn(draws), plastisol.DIFFUSIVITY_M2_S.drawn(draws)
    )
    join_c = contact_c(first_c, give, second_c, give)
    holds = learned(inputs.peel_tests).odds(join_c)
    line = _line(draws, inputs, first_c, second_c)
    verdict = _verdict(inputs.peel_tests, float(join_c[0]), holds)
    return JoinAnswer(
        join_c=draws.band(join_c),
        holds=holds,
        verdict=verdict,
        first_thick_share=None if line is None else draws.band(line),
        notes=(*width_notes(draws, {"join_c": join_c}), *_words(verdict)),
    )


def _layers(draws: Draws, inputs: JoinInput) -> tuple[Array, Array]:
    off = inputs.doubt_k
    first, second = (
        draws.of(label, Doubt(label, Band(-off, 0.0, off), measure))
        for label, measure in (
            ("face of the first layer", "read the face with the infrared gun as the second comes"),
            ("second plastic", "read the stirred cup right before it is drawn"),
        )
    )
    return np.asarray(inputs.first_c + first), np.asarray(inputs.second_c + second)


def _line(draws: Draws, inputs: JoinInput, first_c: Array, second_c: Array) -> Array | None:
    if inputs.second_thicker_times is not None:
        return line_for(draws.known(inputs.first_flow_share), inputs.second_thicker_times)
    if min(inputs.first_c, inputs.second_c) < _COLDEST_SHOT_C:
        return None
    slope = MELT_SLOPE_K.drawn(draws)
    thicker = melt_viscosity_pa_s(second_c, 1.0, slope) / melt_viscosity_pa_s(first_c, 1.0, slope)
    return line_for(draws.known(inputs.first_flow_share), thicker)


def _verdict(tests: tuple[PeelTest, ...], join_c: float, holds: Band) -> Verdict:
    """Settled only by a test at least as telling as this join, and odds that agree with it."""
    if holds.low >= _SURE and any(t.held and t.join_c <= join_c + _NEAR_K for t in tests):
        return Verdict.WELD
    if holds.high <= 1 - _SURE and any(not t.held and t.join_c >= join_c - _NEAR_K for t in tests):
        return Verdict.PEELS
    return Verdict.DOUBTFUL


def _words(verdict: Verdict) -> Iterable[str]:
    if verdict is Verdict.DOUBTFUL:
        yield (
            "Nothing published says when layers of bait plastic weld: 150 °C / 302 °F and more is "
            "said to hold, under 130 °C / 266 °F to peel (common practice, no source)."
        )
        yield (
            "To settle it, shoot three pairs as hot as this join and three 15 K / 27 °F colder, "
            "wait a day, pull them apart, and enter which tore in the plastic."
        )
    yield (
        "Hotter layers weld better: shoot both at once, or onto a warm first layer; never over "
        "the hot limit of the plastic. Open molds with hot plastic in them want face shield, heat "
        "gloves, and a dry bench."
    )
