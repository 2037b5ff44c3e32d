"""Mass and volume of a bait of which only one is known."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput


@dataclass(frozen=True, slots=True)
class Amount:
    """Mass and volume of one thing; arrays have the shape of a draw."""

    mass_g: Array
    volume_ml: Array


def amount(
    *, density_g_ml: Array, mass_g: Array | None = None, volume_ml: Array | None = None
) -> Amount:
    """Both mass and volume: what is known stays as it is, the density gives the other.

    A known mass and a known volume are both kept, whatever density they make.
    Raises: BadInput if neither is known.

    >>> import numpy as np
    >>> bait = amount(density_g_ml=np.array([1.05]), volume_ml=np.array([8.0]))
    >>> round(float(bait.mass_g[0]), 6)
    8.4
    """
    if mass_g is not None and volume_ml is not None:
        return Amount(mass_g, volume_ml)
    if mass_g is not None:
        return Amount(mass_g, mass_g / density_g_ml)
    if volume_ml is not None:
        return Amount(volume_ml * density_g_ml, volume_ml)
    raise BadInput("mass_g", None, "give the bait's weight or its volume")
