"""What molds are made of, and how much heat they take at a touch."""

from __future__ import annotations

import math
from enum import StrEnum

from pourwright.base.band import Band
from pourwright.base.source import estimate
from pourwright.matter.property import Property

# Before its first shot it is as warm as the room, after some shots a hand still holds it.
MOLD_C = Property(
    "mold temperature",
    Band(20.0, 27.0, 38.0),
    estimate("a cool room to a mold that a hand still holds"),
    "read the mold with the infrared gun before the shot",
)


CONTACT_FILM = Property(
    "contact of the plastic with the wall it touches, W/(m²·K)",
    Band(300.0, 1000.0, 3000.0),
    estimate("contact conductance of molded plastics"),
    logarithmic=True,
)


class MoldMaterial(StrEnum):
    """Mold materials."""

    ALUMINUM = "aluminum"
    SILICONE = "silicone"
    PLASTER = "plaster"
    EPOXY = "epoxy"
    PRINTED_RESIN = "printed resin"


# Conductivity W/(m·K), density kg/m³, heat capacity J/(kg·K).
# Aluminum: 6061 handbook values (from memory); the castables: estimates from filler content.
_MOLD = {
    MoldMaterial.ALUMINUM: (167.0, 2700.0, 897.0),
    MoldMaterial.SILICONE: (0.20, 1150.0, 1500.0),
    MoldMaterial.PLASTER: (0.45, 1150.0, 900.0),
    MoldMaterial.EPOXY: (0.50, 1600.0, 1100.0),
    MoldMaterial.PRINTED_RESIN: (0.20, 1180.0, 1400.0),
}


def effusivity(material: MoldMaterial) -> float:
    """Square root of conductivity times density times heat capacity, W·s½/(m²·K)."""
    return math.sqrt(math.prod(_MOLD[material]))


def heat_capacity_j_kgk(material: MoldMaterial) -> float:
    """Specific heat of a mold material."""
    return _MOLD[material][2]


def density_g_ml(material: MoldMaterial) -> float:
    """Density of a mold material."""
    return _MOLD[material][1] / 1000


def volume_heat_j_m3k(material: MoldMaterial) -> float:
    """Heat capacity of a cubic meter."""
    return _MOLD[material][1] * _MOLD[material][2]


def conducts(material: MoldMaterial) -> bool:
    """Whether the mold stays nearly isothermal while a bait cools in it."""
    return _MOLD[material][0] > 10
