"""What drives the plastic: a hand on a plunger, a ram, or its own weight."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.source import PRACTICE, estimate, published
from pourwright.matter.plastisol import HOT_DENSITY_G_ML
from pourwright.matter.property import Property
from pourwright.physics.convection import GRAVITY_M_S2


class Push(StrEnum):
    """Who or what pushes."""

    ONE_HAND = "one hand"
    TWO_HANDS = "two hands"
    RAM = "lever or ram"
    POUR = "hand pour"


ONE_HAND_N = Property(
    "push on the plunger",
    Band(80.0, 110.0, 150.0),
    published(
        "Seo, Armstrong et al., Human Factors 50 (2008) 227, table 2: 107 to 136 N along a handle, "
        "spread 20 to 25 N"
    ),
    "push the injector on a bathroom scale as hard as in a shot",
)
TWO_HANDS_N = Property(
    "push on the plunger",
    Band(140.0, 200.0, 280.0),
    estimate("less than twice one hand"),
    ONE_HAND_N.measure,
)
PLUNGER_M_S = Property(
    "fastest speed of the plunger by hand",
    Band(0.025, 0.05, 0.1),
    PRACTICE,
    "time one push with an empty injector and measure its stroke",
    logarithmic=True,
)
UNDER_CUP_K = Property(
    "how much cooler the plastic is at the push than in the stirred cup",
    Band(1.0, 10.0, 19.0),
    estimate("from a barrel primed with hot plastic to one at room temperature"),
    "read what the nozzle gives into a warm cup",
)
BORE_MM = (28.0, 35.0, 45.0)


@dataclass(frozen=True, slots=True, eq=False)
class Drive:
    """Pressure at the mouth of the mold, and the most that can flow; each a draw."""

    pressure_pa: Array
    most_m3_s: Array


def plunger(*, force_n: Array, bore_m: Array, speed_m_s: Array) -> Drive:
    """A plunger of a bore: force over area, and area times its fastest speed."""
    area = np.pi * bore_m**2 / 4
    return Drive(np.asarray(force_n / area), np.asarray(area * speed_m_s))


def head(*, head_m: Array, density_kg_m3: Array, mouth_m2: float) -> Drive:
    """Plastic standing so high over the mold; no faster through the mouth than it falls.

    Source: Torricelli's law for the fastest.
    """
    weight = density_kg_m3 * GRAVITY_M_S2 * head_m
    fall = np.sqrt(2 * GRAVITY_M_S2 * head_m)
    return Drive(np.asarray(weight), np.asarray(mouth_m2 * fall))


def force_draws(draws: Draws, push: Push, push_n: Band | None) -> Array:
    """Draws of the force on the plunger; one hand and two are those of the same person."""
    if push_n is not None:
        return draws.of(ONE_HAND_N.label, Doubt(ONE_HAND_N.label, push_n, ONE_HAND_N.measure))
    return (TWO_HANDS_N if push is Push.TWO_HANDS else ONE_HAND_N).drawn(draws)


def push_note(push: Property) -> str:
    """Which typical push stands in, and how to replace it."""
    low, typical, high = push.ends
    return (
        f"push_n was left out: typical {typical:g} N ({low:g} to {high:g}) stands in. "
        f"To replace it, {push.measure}."
    )


def density_draws(draws: Draws) -> Array:
    """Draws of the hot density, kg/m³."""
    return np.asarray(HOT_DENSITY_G_ML.drawn(draws) * 1000)
