"""Densities of what hooks and weights are made of, in g/mL.

Sources: CRC Handbook of Chemistry and Physics, density of the elements (lead 11.34, tin 7.29,
bismuth 9.79) and engineering tables (carbon steel 7.85, brass 8.4 to 8.7, soda-lime glass 2.5),
from memory; sintered tungsten for weights, common practice without a source.
"""

from __future__ import annotations

from enum import StrEnum

from pourwright.base.band import Band
from pourwright.base.draws import Array, Doubt, Draws


class Metal(StrEnum):
    """What a hook or a weight is made of."""

    STEEL = "steel"
    LEAD = "lead"
    TUNGSTEN = "tungsten"
    BRASS = "brass"
    TIN = "tin"
    BISMUTH = "bismuth"
    GLASS = "glass"


_DENSITY_G_ML = {
    Metal.STEEL: Band(7.75, 7.85, 7.95),
    Metal.LEAD: Band(10.9, 11.3, 11.35),
    Metal.TUNGSTEN: Band(16.5, 17.5, 18.5),
    Metal.BRASS: Band(8.4, 8.5, 8.7),
    Metal.TIN: Band(7.2, 7.29, 7.35),
    Metal.BISMUTH: Band(9.7, 9.79, 9.8),
    Metal.GLASS: Band(2.4, 2.5, 2.6),
}


def density_kg_m3(draws: Draws, metal: Metal) -> Array:
    """Draws of a metal's density."""
    label = f"density of {metal.value}"
    return 1000 * draws.of(label, Doubt(label, _DENSITY_G_ML[metal]))
