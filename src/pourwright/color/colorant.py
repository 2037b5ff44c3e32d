"""What every colorant kind is: a color entered by its maker, and what its grams do to light."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import part, text
from pourwright.base.record import Record
from pourwright.color.lab import Lab
from pourwright.spectrum.color_space import xyz_of_hex, xyz_of_lab
from pourwright.spectrum.light import BANDS, white_xyz
from pourwright.spectrum.smooth import smooth_spectrum


@dataclass(frozen=True, slots=True)
class Stuff:
    """What a dose adds to a layer, by draw.

    Absorption and scattering per mm, shape (draws, 31); area of flake faces in mm² to a mm³ of
    plastic, shape (draws,), and the reflectance those faces show, shape (31,).
    """

    absorb_mm: Array
    scatter_mm: Array
    faces_per_mm: Array
    faces_show: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class Colorant(Record):
    """A colorant by the color it shows; `key` is stored and never changes.

    `limit` says in words what its swatch leaves out; empty where there is nothing to say.
    """

    key: ClassVar[str] = ""
    label: ClassVar[str] = ""
    limit: ClassVar[str] = ""

    color_hex: str = text(
        "The color it shows, as #rrggbb", pattern="(#[0-9a-fA-F]{6})?", most=7, default=""
    )
    lab: Lab | None = part("The same as L*a*b*, instead of #rrggbb", default=None)

    def check(self) -> None:
        """Refuse a colorant with no color or with two, and a color no surface shows."""
        if bool(self.color_hex) == (self.lab is not None):
            raise BadInput("color_hex", self.color_hex, "give the color either so or as lab")

    def shown(self) -> Array:
        """A smooth reflectance of the color entered.

        Raises: NoAnswer for a Lab color that no surface shows in daylight.
        """
        if self.lab is not None:
            return smooth_spectrum(xyz_of_lab(self.lab.array(), white_xyz()))
        return smooth_spectrum(xyz_of_hex(self.color_hex))

    @abstractmethod
    def stuff(self, grams_per_100g: Array, values: Mapping[str, Array]) -> Stuff:
        """What these grams add; `values` holds the draws of the fields that may go unmeasured."""


def inert(rows: int) -> Stuff:
    """What something without color adds."""
    nothing = np.zeros((rows, BANDS))
    return Stuff(nothing, nothing, np.zeros(rows), np.zeros(BANDS))
