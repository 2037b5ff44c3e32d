"""The glass of measuring cups: borosilicate or soda-lime."""

from __future__ import annotations

from pourwright.base.band import Band
from pourwright.base.source import published
from pourwright.matter.property import Property

HEAT_CAPACITY_J_KGK = Property(
    "heat capacity of the cup's glass",
    Band(780.0, 830.0, 860.0),
    published("ISO 3585 (1998), borosilicate glass 3.3; soda-lime glass tables give about 840"),
)
# ISO 3585 (1998), borosilicate glass 3.3: density, and conductivity at 90 °C less a little for the
# cooler glass of a cup; soda-lime glass is 12 % heavier and conducts a tenth less.
DENSITY_KG_M3 = 2230.0
CONDUCTIVITY_W_MK = 1.1
EMISSIVITY = 0.9
