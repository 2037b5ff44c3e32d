"""Photons that a cone catches in dim light."""

from __future__ import annotations

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array, Draws
from pourwright.base.source import estimate
from pourwright.matter.property import Property

# 1 lx of daylight brings about 1.1e10 photons (400 to 700 nm) a second to a mm² of white, half of
# them within reach of one pigment. They leave it to all sides: a lens of focal length 2.5 radii
# (Matthiessen's ratio, from memory) brings a sixth of them to a mm² of retina, of which a cone 5 µm
# wide takes 2e-5 mm², keeps 30 % and counts for 1/20 s.
PHOTONS_PER_LX = Property(
    "photons that a cone catches", Band(75.0, 300.0, 1200.0),
    estimate("cone 5 µm wide, Matthiessen's lens, 1/20 s of daylight off a white surface"),
    logarithmic=True,
)  # fmt: skip


def photons(draws: Draws, caught: Array, white: Array, light_lx: float) -> Array:
    """Photons of each class from a mosaic's one cell of it, (draws, cones).

    `caught` and `white` are relative catches of what is seen and of a white surface in the same
    light; the last class catches the white's share at `light_lx`.
    """
    at_white = PHOTONS_PER_LX.drawn(draws) * light_lx / white[..., -1]
    return np.asarray(at_white[:, None] * caught)
