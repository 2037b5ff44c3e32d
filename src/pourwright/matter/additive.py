"""Densities of what goes into plastisol, by sort, in g/mL.

Sources: sodium chloride 2.165, CRC Handbook of Chemistry and Physics (from memory); PET film
1.38, muscovite mica 2.8, polymer and mineral handbooks (from memory); diisononyl phthalate 0.972
at 20 °C, Merck Index entry (published). The bands of mixtures sold without a figure (colorants,
scents, hardeners, stabilizers) are estimates.
"""

from __future__ import annotations

from pourwright.base.band import Band
from pourwright.base.draws import Doubt
from pourwright.base.source import PRACTICE, estimate, memory
from pourwright.matter.property import Property

DENSITY_G_ML: dict[str, Doubt] = {
    "colorant": Doubt("density of the colorant", Band(0.98, 1.1, 1.5)),
    "flake": Doubt("density of the flake", Band(1.3, 1.38, 1.45)),
    "pearl_powder": Doubt("density of the pearl powder", Band(2.6, 2.9, 3.3)),
    "salt": Doubt("density of the salt", Band(2.15, 2.165, 2.17)),
    "hollow_glass": Doubt("density of the hollow glass", Band(0.12, 0.2, 0.4), "read the bag"),
    "scent": Doubt("density of the scent", Band(0.88, 0.96, 1.05)),
    "softener": Doubt("density of the softener", Band(0.925, 0.972, 0.99)),
    "hardener": Doubt("density of the hardener", Band(1.08, 1.15, 1.25)),
    "stabilizer": Doubt("density of the stabilizer", Band(0.95, 1.0, 1.1)),
}

_SALT, _GLASS = DENSITY_G_ML["salt"].band, DENSITY_G_ML["hollow_glass"].band
SALT_SOURCE = memory(
    f"sodium chloride {_SALT.typical:g} g/mL, CRC Handbook of Chemistry and Physics"
)
GLASS_SOURCE = estimate(f"hollow glass {_GLASS.low:g} to {_GLASS.high:g} g/mL, by its sort")
FLAKE_FILM_UM = Property(
    "film thickness", Band(20.0, 25.0, 50.0), PRACTICE, "read the supplier's sheet",
    logarithmic=True,
)  # fmt: skip
