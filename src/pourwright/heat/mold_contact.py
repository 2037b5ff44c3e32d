"""How a bait gives its heat to its mold, and the mold to the bench."""

from __future__ import annotations

from pourwright.base.band import Band
from pourwright.base.draws import Array, Draws
from pourwright.base.source import estimate
from pourwright.matter.mold_material import CONTACT_FILM, MoldMaterial, conducts
from pourwright.matter.property import Property

INSULATING_FILM = Property(
    "contact of the bait with an insulating mold, W/(m²·K)",
    Band(15.0, 25.0, 50.0),
    estimate("the mold itself hinders the heat"),
    "time one mold: open it a little early and feel whether the thick place is still soft",
    logarithmic=True,
)
OPEN_FACE_FILM = Property(
    "film of still air over an open mold, W/(m²·K)",
    Band(14.0, 19.0, 26.0),
    estimate("free convection and radiation off a face of 60 to 165 °C, averaged"),
    logarithmic=True,
)
MOLD_LOSS_W_K = Property(
    "heat a mold on the bench gives off, W/K",
    Band(0.25, 0.5, 1.0),
    estimate("0.05 m² of face at 10 W/(m²·K)"),
    "read the mold before every shot",
    logarithmic=True,
)


def contact_film(draws: Draws, material: MoldMaterial) -> Array:
    """Film coefficient between bait and mold."""
    return (CONTACT_FILM if conducts(material) else INSULATING_FILM).drawn(draws)
