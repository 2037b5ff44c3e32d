"""The microwave of the reduced cup: its drawn parameters, and what they rest on.

The power is an effective one: it swallows what the reduced cup leaves out, holds for half a
kilogram of plastic, and belongs to this model alone.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.band import Band
from pourwright.base.belief import Belief
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.source import estimate, memory
from pourwright.matter import plastisol, scorch
from pourwright.matter.property import Property

MODEL = "cup.reduced"
VERSION = 1
NAMES = ("ln_power_w", "ln_loss", "surface_offset_k", "reading_bias_k")

HOT_FACTOR = Property(
    "how far the core runs ahead of the mean", Band(1.10, 1.22, 1.35), estimate("cup study")
)
BOTTOM_LAG = Property(
    "how far the bottom lags behind the mean", Band(0.16, 0.26, 0.33), estimate("cup study")
)
LOSS_RATIO = Property(
    "losses of the cup against still air",
    Band(0.66, 1.0, 1.5),
    estimate("the oven's fan is unknown"),
    logarithmic=True,
)
LOAD_HALF_KG = Property(
    "load at which half the power is taken up",
    Band(0.05, 0.1, 0.2),
    memory("Barringer et al., AIChE J. 40 (1994) 1433: small samples take up less"),
    "time two batch sizes",
    logarithmic=True,
)
REFERENCE_LOAD_KG = 0.5


@dataclass(frozen=True, slots=True)
class Oven:
    """The parameters of one forecast, drawn."""

    power_w: Array
    loss: Array
    surface_offset_k: Array
    reading_bias_k: Array
    hot_factor: Array
    bottom_lag: Array
    heat_ratio: Array
    ambient_c: Array
    scorch_j_mol: Array
    stable_s: Array


def drawn_oven(
    draws: Draws,
    *,
    power_w: Array,
    loss: Array,
    surface_offset_k: Array,
    reading_bias_k: Array,
    heat_ratio: Array,
    ambient_c: Array,
) -> Oven:
    """An oven whose parameters that no fit touches are drawn from their bands."""
    return Oven(
        power_w=power_w,
        loss=loss,
        surface_offset_k=surface_offset_k,
        reading_bias_k=reading_bias_k,
        hot_factor=HOT_FACTOR.drawn(draws),
        bottom_lag=BOTTOM_LAG.drawn(draws),
        heat_ratio=heat_ratio,
        ambient_c=ambient_c,
        scorch_j_mol=scorch.ACTIVATION_J_MOL.drawn(draws),
        stable_s=scorch.STABLE_MIN_AT_190C.drawn(draws) * 60,
    )


def believed_oven(
    draws: Draws, belief: Belief, *, plastic_kg: Array | float, ambient_c: Array
) -> Oven:
    """An oven as a belief has it, under a load.

    The heat capacity stays at its usual curve: the believed power has swallowed its doubt.
    """
    about = belief.for_model(MODEL, VERSION).draw(draws)
    for name, doubt in _LEARNED.items():
        draws.note_doubt(name, doubt)
    power = loaded_power(np.exp(about["ln_power_w"]), LOAD_HALF_KG.drawn(draws), plastic_kg)
    return drawn_oven(
        draws,
        power_w=power,
        loss=np.exp(about["ln_loss"]),
        surface_offset_k=about["surface_offset_k"],
        reading_bias_k=about["reading_bias_k"],
        heat_ratio=draws.known(plastisol.HEAT_CAPACITY_RATIO.typical),
        ambient_c=ambient_c,
    )


def loaded_power(power_w: Array, load_half_kg: Array, plastic_kg: Array | float) -> Array:
    """Power taken up by another load, where `power_w` holds for half a kilogram."""
    here = plastic_kg / (plastic_kg + load_half_kg)
    there = REFERENCE_LOAD_KG / (REFERENCE_LOAD_KG + load_half_kg)
    return np.asarray(power_w * here / there)


_ONE = Band(-1.645, 0.0, 1.645)
_LEARNED = {
    "ln_power_w": Doubt(
        "effective power of the oven", _ONE, "time one cook and read the surface before the stir"
    ),
    "ln_loss": Doubt(LOSS_RATIO.label, _ONE),
    "surface_offset_k": Doubt(
        "how the surface differs from the mean", _ONE, "read while you stir, or use a probe"
    ),
    "reading_bias_k": Doubt(
        "bias of the thermometer",
        _ONE,
        "check the thermometer in boiling water or against a probe while you stir",
    ),
}
