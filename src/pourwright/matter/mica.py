"""Mica, the core of a pearl flake: muscovite split thin, and how far powders of it vary."""

from __future__ import annotations

from pourwright.base.band import Band
from pourwright.base.source import estimate, memory, published
from pourwright.matter.property import Property

INDEX = Property(
    "index of mica",
    Band(1.57, 1.58, 1.60),
    published('US patent 4,146,403 (1979): mean index of mica "about 1.58"'),
)
CORE_NM = Property(
    "thickness of the mica in a pearl flake",
    Band(200.0, 400.0, 700.0),
    memory("Maile, Pfaff and Reynders, Prog. Org. Coat. 54 (2005) 150: mica of 300 to 600 nm"),
    logarithmic=True,
)
QUALITY = Property(
    "quality and lie of the pearl flakes",
    Band(0.25, 0.4, 0.7),
    estimate("flakes tilted every way scatter 3/8 of what flat ones do; broken and clumped less"),
    "pour a 5 mm puck of 0.2 g in 100 g and read it over black and over white",
    logarithmic=True,
)
FILM_BY_COLOR = Property(
    "film thickness behind a color",
    Band(0.91, 1.0, 1.1),
    estimate("share of the film that shows the color: printed grades reach 14 to 20 % either way"),
    "ask the supplier for the film in nm",
    logarithmic=True,
)
FILM_BY_FIGURE = Property(
    "film thickness from batch to batch",
    Band(0.95, 1.0, 1.05),
    estimate("share of the film on the data sheet"),
    logarithmic=True,
)
