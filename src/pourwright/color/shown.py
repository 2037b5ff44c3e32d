"""Colorants known by the color they show."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import part, text
from pourwright.color.colorant import Colorant
from pourwright.color.lab import Lab
from pourwright.spectrum.color_space import xyz_of_hex, xyz_of_lab
from pourwright.spectrum.light import white_xyz
from pourwright.spectrum.smooth import smooth_spectrum


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown(Colorant):
    """A colorant by the color its maker entered."""

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
