"""The microwave of the reduced cup: its drawn parameters, and what they rest on.

The power is an effective one: it swallows what the reduced cup leaves out, holds for half a
kilogram of plastic at 100 °C, and belongs to this model alone.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.band import Band
from pourwright.base.belief import Belief
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.source import estimate, memory
from pourwright.heat.surface import FILM_K
from pourwright.matter import plastisol, scorch
from pourwright.matter.property import Property

MODEL = "cup.reduced"
VERSION = 2
NAMES = (
    "ln_power_w",
    "power_tilt",
    "ln_loss",
    "ln_to_glass",
    "ln_load_half_kg",
    "surface_offset_k",
    "film_k",
    "reading_bias_k",
    "probe_bias_k",
)

HOT_FACTOR = Property(
    "how much more of the waves the core takes up than the mean",
    Band(0.98, 1.05, 1.15),
    estimate("cup study"),
)
BOTTOM_LAG = Property(
    "how far the bottom goes from the mean toward its glass, 0 to 1",
    Band(0.25, 0.45, 0.65),
    estimate("cup study"),
)
LOSS_RATIO = Property(
    "losses of the cup against still air",
    Band(0.66, 1.0, 1.5),
    estimate("the oven's fan is unknown"),
    logarithmic=True,
)
TO_GLASS_RATIO = Property(
    "heat the glass takes up against a usual cup",
    Band(0.66, 1.0, 1.5),
    estimate("cup study"),
    logarithmic=True,
)
POWER_TILT = Property(
    "change of the power taken up, for each 100 K",
    Band(-0.1, 0.0, 0.1),
    estimate("hot plastic takes up waves better or worse than cold"),
    "read at the gel and at the end of one cup",
)
LOAD_HALF_KG = Property(
    "load at which half the power is taken up",
    Band(0.05, 0.1, 0.2),
    memory("Barringer et al., AIChE J. 40 (1994) 1433: small samples take up less"),
    "time two batch sizes",
    logarithmic=True,
)
REFERENCE_LOAD_KG = 0.5
TILT_ABOUT_C = 100.0


@dataclass(frozen=True, slots=True)
class Oven:
    """The parameters of one forecast, drawn; `power_w` holds for the load in question."""

    power_w: Array
    power_tilt: Array
    loss: Array
    to_glass: Array
    surface_offset_k: Array
    film_k: Array
    reading_bias_k: Array
    probe_bias_k: Array
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
    """An oven nobody has learned of: what is not given is drawn from its band."""
    return Oven(
        power_w=power_w,
        power_tilt=POWER_TILT.drawn(draws),
        loss=loss,
        to_glass=TO_GLASS_RATIO.drawn(draws),
        surface_offset_k=surface_offset_k,
        film_k=FILM_K.drawn(draws),
        reading_bias_k=reading_bias_k,
        probe_bias_k=draws.known(0.0),
        heat_ratio=heat_ratio,
        ambient_c=ambient_c,
        **_unlearned(draws),
    )


def believed_oven(
    draws: Draws, belief: Belief, *, plastic_kg: Array | float, ambient_c: Array
) -> Oven:
    """An oven as a belief has it, under a load.

    The heat capacity stays at its usual curve: the believed power has swallowed its doubt.
    """
    about = belief.for_model(MODEL, VERSION).draw(draws)
    for name, doubt in LEARNED.items():
        draws.note_doubt(name, doubt)
    return oven_of(
        about,
        plastic_kg=plastic_kg,
        ambient_c=ambient_c,
        heat_ratio=draws.known(plastisol.HEAT_CAPACITY_RATIO.typical),
        **_unlearned(draws),
    )


def oven_of(
    about: dict[str, Array],
    *,
    plastic_kg: Array | float,
    ambient_c: Array,
    heat_ratio: Array,
    hot_factor: Array,
    bottom_lag: Array,
    scorch_j_mol: Array,
    stable_s: Array,
) -> Oven:
    """An oven from values of the learned parameters, by name."""
    power = np.exp(about["ln_power_w"])
    return Oven(
        power_w=loaded_power(power, np.exp(about["ln_load_half_kg"]), plastic_kg),
        power_tilt=about["power_tilt"],
        loss=np.exp(about["ln_loss"]),
        to_glass=np.exp(about["ln_to_glass"]),
        surface_offset_k=about["surface_offset_k"],
        film_k=about["film_k"],
        reading_bias_k=about["reading_bias_k"],
        probe_bias_k=about["probe_bias_k"],
        hot_factor=hot_factor,
        bottom_lag=bottom_lag,
        heat_ratio=heat_ratio,
        ambient_c=ambient_c,
        scorch_j_mol=scorch_j_mol,
        stable_s=stable_s,
    )


def loaded_power(power_w: Array, load_half_kg: Array, plastic_kg: Array | float) -> Array:
    """Power taken up by another load, where `power_w` holds for half a kilogram."""
    here = plastic_kg / (plastic_kg + load_half_kg)
    there = REFERENCE_LOAD_KG / (REFERENCE_LOAD_KG + load_half_kg)
    return np.asarray(power_w * here / there)


def _unlearned(draws: Draws) -> dict[str, Array]:
    return {
        "hot_factor": HOT_FACTOR.drawn(draws),
        "bottom_lag": BOTTOM_LAG.drawn(draws),
        "scorch_j_mol": scorch.ACTIVATION_J_MOL.drawn(draws),
        "stable_s": scorch.STABLE_MIN_AT_190C.drawn(draws) * 60,
    }


_ONE = Band(-1.645, 0.0, 1.645)
LEARNED = {
    "ln_power_w": Doubt(
        "effective power of the oven", _ONE, "time one cook and read it after each stir"
    ),
    "power_tilt": Doubt(POWER_TILT.label, _ONE, POWER_TILT.measure),
    "ln_loss": Doubt(LOSS_RATIO.label, _ONE),
    "ln_to_glass": Doubt(TO_GLASS_RATIO.label, _ONE),
    "ln_load_half_kg": Doubt(LOAD_HALF_KG.label, _ONE, LOAD_HALF_KG.measure),
    "surface_offset_k": Doubt(
        "how the surface differs from the mean", _ONE, "read while you stir, or use a probe"
    ),
    "film_k": Doubt(FILM_K.label, _ONE, FILM_K.measure),
    "reading_bias_k": Doubt(
        "bias of the thermometer",
        _ONE,
        "check the thermometer in boiling water or against a probe while you stir",
    ),
    "probe_bias_k": Doubt(
        "bias of the probe", _ONE, "check the probe in boiling water at your altitude"
    ),
}
