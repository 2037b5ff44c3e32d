"""The one list of colorant kinds."""

from __future__ import annotations

from pourwright.base.kind import Kinds
from pourwright.color.colorant import Colorant
from pourwright.color.kinds.dye import Dye
from pourwright.color.kinds.flake import Flake
from pourwright.color.kinds.fluorescent import Fluorescent
from pourwright.color.kinds.glass import HollowGlass
from pourwright.color.kinds.measured import Measured
from pourwright.color.kinds.pearl import Pearl
from pourwright.color.kinds.pearl_film import PearlFilm
from pourwright.color.kinds.pigment import Pigment
from pourwright.color.kinds.remelt import Remelt
from pourwright.color.kinds.salt import Salt

COLORANTS: Kinds[Colorant] = Kinds(
    Dye, Pigment, Pearl, Flake, PearlFilm, Fluorescent, Salt, HollowGlass, Remelt, Measured
)
