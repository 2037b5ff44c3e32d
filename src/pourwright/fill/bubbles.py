"""How long raw liquid must rest until its bubbles are out, and what a vacuum does."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import number, out, unmeasured
from pourwright.base.record import Record
from pourwright.base.source import PRACTICE, published
from pourwright.base.units import in_both
from pourwright.matter.air import ATMOSPHERE_PA
from pourwright.matter.boiling import boiling_c
from pourwright.matter.flow import LIQUID_PA_S, liquid_viscosity_pa_s
from pourwright.matter.plastisol import COLD_DENSITY_G_ML
from pourwright.physics.settling import CLEAN_BUBBLE, RIGID_BALL, ball_speed_m_s

# Softener and stabilizer dirty the skin of a bubble, so that it mostly rises as a hard ball.
_SKIN = Doubt("how freely the bubble's skin slips", Band(CLEAN_BUBBLE, RIGID_BALL, RIGID_BALL), "")
_PA_PER_HPA, _S_PER_MIN = 100.0, 60.0
# Above this the liquid's inertia shows and bubbles rise slower than said here.
_MOST_REYNOLDS = 1.0
# A cup in a vacuum is filled no further than this; common practice, no source.
_FILL_MOST = 1 / 3
# Gas constant over the molar mass of water (CODATA 2018; 18.015 g/mol).
_STEAM_J_KGK = 8.314462618 / 0.018015
VACUUM_CAUTION = (
    "Vacuum: raw, cold liquid only, never hot plastic, which foams over, boils off its softener "
    "and cracks the chamber. Use a chamber made and rated for vacuum behind a shield, never a jar, "
    "and wear eye protection."
)
DAMP_CAUTION = (
    "Bubbles that come while heating are steam or smoke, not air: dry salt, flake and molds, and "
    "keep the fumes away from you."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class BubblesInput(Record):
    """Bubbles in raw liquid, and the chamber if there is one."""

    bubble_mm: float = number("Smallest bubble to get rid of, across", low=0.02, high=6)
    depth_mm: float = number("Depth of the liquid", low=2, high=600, default=60)
    viscosity_pa_s: float | None = unmeasured(
        "Viscosity of the liquid at 25 °C", low=0.02, high=50, typical=LIQUID_PA_S.ends,
        label=LIQUID_PA_S.label, measure=LIQUID_PA_S.measure, logarithmic=True,
    )  # fmt: skip
    liquid_c: float = number("Temperature of the liquid", low=5, high=60, default=22)
    waited_min: float = number("Rest that you have time for", low=0.1, high=10_000, default=15)
    chamber_hpa: float | None = number(
        "Absolute pressure in the vacuum chamber; left out, no vacuum",
        low=7, high=1010, default=None,
    )  # fmt: skip
    air_share: float | None = unmeasured(
        "Share of the stirred liquid that is air, 0 to 0.5", low=0, high=0.5,
        typical=(0.01, 0.03, 0.08), label="air stirred in",
        measure="compare the level just stirred with the level next day", logarithmic=True,
    )  # fmt: skip
    damp_mg: float = number(
        "Water in the batch, from damp salt or flake", low=0, high=1e5, default=0
    )
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a bubble that does not fit."""
        if self.bubble_mm > self.depth_mm:
            raise BadInput("bubble_mm", self.bubble_mm, "must fit into the liquid")


@dataclass(frozen=True, slots=True)
class BubblesAnswer:
    """Rest, with and without vacuum."""

    rest_min: Band = out("Rest until bubbles of that size have risen from the bottom")
    smallest_gone_mm: Band = out("Smallest bubble that is gone after the rest you have time for")
    vacuum_min: Band | None = out("The same rest under vacuum; null without a chamber")
    wider_ratio: float | None = out("How many times wider a bubble grows; null without a chamber")
    swell_ratio: Band | None = out(
        "How many times its volume the liquid swells to, at least; null without a chamber"
    )
    fill_most_share: float | None = out(
        "Fill the cup no further than this, 0 to 1; null without a chamber"
    )
    steam_ml: float = out("Steam that the water in the batch makes at 100 °C")
    notes: tuple[str, ...] = out("What dominates, what would narrow it, cautions")


@calculation(
    "fill.bubbles",
    purpose="rest time or vacuum for bubbles",
    sources=(
        published("Stokes (1851): a hard ball"),
        published("Hadamard (1911) and Rybczynski (1911): a bubble whose skin slips"),
        published("Boyle (1662): a bubble grows as its pressure falls"),
        LIQUID_PA_S.source,
        PRACTICE,
    ),
    example={"bubble_mm": 0.5, "depth_mm": 60, "chamber_hpa": 50},
)
def bubbles(inputs: BubblesInput) -> BubblesAnswer:
    """Rising time from the bottom to the top, of a bubble alone and small enough for Stokes.

    A thick, salted or filled liquid with a yield of its own holds small bubbles for good.
    Raises: BadInput for a bubble larger than the liquid is deep.
    """
    draws = Draws(seed=inputs.seed)
    v = drawn(draws, inputs)
    thick = liquid_viscosity_pa_s(draws.known(inputs.liquid_c), v["viscosity_pa_s"])
    dense = 1000 * COLD_DENSITY_G_ML.drawn(draws)
    speed = _speed_m_s(draws, inputs.bubble_mm / 1000, dense, thick)
    rest = inputs.depth_mm / 1000 / speed / _S_PER_MIN
    gone = inputs.bubble_mm * np.sqrt(rest / inputs.waited_min)
    wider = swell = None
    if inputs.chamber_hpa is not None:
        wider = wider_in(inputs.chamber_hpa)
        swell = draws.band(swelling(v["air_share"], inputs.chamber_hpa))
    return BubblesAnswer(
        rest_min=draws.band(rest),
        smallest_gone_mm=draws.band(gone),
        vacuum_min=None if wider is None else draws.band(rest / wider**2),
        wider_ratio=wider,
        swell_ratio=swell,
        fill_most_share=None if swell is None else min(_FILL_MOST, 1 / swell.high),
        steam_ml=steam_ml(inputs.damp_mg, 100.0),
        notes=(
            *left_out(inputs, unused=() if inputs.chamber_hpa else ("air_share",)),
            *width_notes(draws, {"rest_min": rest}),
            *_fast(dense * speed * inputs.bubble_mm / 1000 / thick),
            *_cautions(inputs),
        ),
    )


def wider_in(chamber_hpa: float) -> float:
    """How many times wider a bubble is at that pressure: its air keeps p·V (Boyle).

    >>> round(wider_in(30.0), 2)
    3.23
    """
    return float(np.cbrt(ATMOSPHERE_PA / (chamber_hpa * _PA_PER_HPA)))


def swelling(air_share: Array | float, chamber_hpa: float) -> Array:
    """Volume of liquid and air in the chamber against that before."""
    grown = ATMOSPHERE_PA / (chamber_hpa * _PA_PER_HPA)
    return np.asarray(1 + np.asarray(air_share) * (grown - 1))


def steam_ml(water_mg: float, steam_c: float) -> float:
    """Volume of the steam of so much water at one atmosphere, as an ideal gas.

    >>> round(steam_ml(1.0, 100.0), 1)
    1.7
    """
    return water_mg * 1e-6 * _STEAM_J_KGK * (steam_c + 273.15) / ATMOSPHERE_PA * 1e6


def _speed_m_s(draws: Draws, bubble_m: float, dense: Array, thick: Array) -> Array:
    skin = np.clip(draws.of(_SKIN.label, _SKIN), CLEAN_BUBBLE, RIGID_BALL)
    return np.asarray(
        ball_speed_m_s(diameter_m=bubble_m, lighter_kg_m3=dense, viscosity_pa_s=thick, skin=skin)
    )


def _fast(reynolds: Array) -> Iterable[str]:
    if float(reynolds[0]) > _MOST_REYNOLDS:
        yield "Bubbles that large rise slower than said here; they are out at once all the same."


def _cautions(inputs: BubblesInput) -> Iterable[str]:
    if inputs.chamber_hpa is not None:
        boils = in_both(float(boiling_c(inputs.chamber_hpa * _PA_PER_HPA)))
        yield (
            f"In this chamber water boils at {boils}: damp liquid foams until it is dry. Let the "
            "air back in slowly once the foam has broken."
        )
        yield VACUUM_CAUTION
    yield DAMP_CAUTION
