"""How fast hot plastisol uses up its heat budget, and the limit for the hottest place."""

from __future__ import annotations

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array
from pourwright.base.source import estimate, published
from pourwright.base.units import in_both
from pourwright.matter.gelation import GAS_J_MOLK
from pourwright.matter.property import Property

ACTIVATION_J_MOL = Property(
    "activation energy of scorching",
    Band(110e3, 140e3, 170e3),
    published(
        "117.5, about 150 and 170 kJ/mol: Polym. Degrad. Stab. 22 (1988) 31; Krongauz et al. "
        "(2011); Simon and Valko (1982)"
    ),
)
STABLE_MIN_AT_190C = Property(
    "minutes the stabilizer lasts at 190 °C",
    Band(10.0, 30.0, 90.0),
    estimate("stabilized soft PVC; heat-stability strips of ISO 305 type would measure it"),
    "keep strips of one batch hot and note when they yellow",
    logarithmic=True,
)
# Lower of these and the flash point less ten kelvin; without a data sheet the cautious one.
HOT_LIMIT_C = 200.0
HOT_LIMIT_UNKNOWN_C = 180.0
FLASH_MARGIN_K = 10.0
# By how much the hottest place of a stirred cup is at least hotter than its mean, and than what
# comes of it to the push; estimate.
_HOTTEST_OVER_K = 10.0


def speed_up(inverse_k: Array, activation_j_mol: Array) -> Array:
    """How much faster than at 190 °C the heat budget is used (Arrhenius).

    Takes one over the absolute temperature.
    """
    return np.asarray(np.exp(activation_j_mol / GAS_J_MOLK * (1 / 463.15 - inverse_k)))


def warmest_c(limit_c: float) -> float:
    """The warmest mean of a cup that leaves its hottest place under a limit."""
    return limit_c - _HOTTEST_OVER_K


def hot_limit(flash_point_c: float | None) -> tuple[float, str]:
    """The limit for the 95th percentile of the hottest place, and why it is what it is."""
    if flash_point_c is None:
        return HOT_LIMIT_UNKNOWN_C, "no data sheet entered: the cautious limit holds (estimate)"
    margin = flash_point_c - FLASH_MARGIN_K
    if margin < HOT_LIMIT_C:
        return margin, f"the data sheet's flash point of {in_both(flash_point_c)} less 10 K / 18 °F"
    return HOT_LIMIT_C, "scorching speeds up above it, whatever the flash point"
