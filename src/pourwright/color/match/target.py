"""The color wanted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.field import part, parts, text
from pourwright.base.record import Record
from pourwright.color.lab import Lab
from pourwright.spectrum.color_space import lab_of, xyz_of_hex, xyz_of_lab
from pourwright.spectrum.light import BANDS, white_xyz, xyz_of
from pourwright.spectrum.smooth import smooth_spectrum

WHITEST_READ = 1.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Target(Record):
    """A color to hit, in one of three ways."""

    lab: Lab | None = part("As L*a*b* in daylight", default=None)
    color_hex: str = text(
        "As a screen color, #rrggbb", pattern="(#[0-9a-fA-F]{6})?", most=7, default=""
    )
    reflectance: tuple[float, ...] = parts(
        "As 31 reflectances, 400 to 700 nm by 10, 0 to 1", most=BANDS, low=0, high=WHITEST_READ
    )

    def check(self) -> None:
        """Refuse no color, two colors, and half a spectrum."""
        given = (self.lab is not None) + bool(self.color_hex) + bool(self.reflectance)
        if given != 1:
            raise BadInput("target", given, "give one of lab, color_hex and reflectance")
        if self.reflectance and len(self.reflectance) != BANDS:
            raise BadInput("reflectance", len(self.reflectance), f"needs {BANDS} values")

    def spectrum(self) -> Array | None:
        """Its reflectance, or a smooth stand-in; None where no surface shows such a color."""
        if self.reflectance:
            return np.array(self.reflectance)
        try:
            return smooth_spectrum(xyz_of_lab(self.daylight(), white_xyz()))
        except NoAnswer:
            return None

    def labs(self, lights: Sequence[Array]) -> Array:
        """L*a*b* under each light, (lights, 3), daylight first; of a Lab color by its stand-in.

        Raises: NoAnswer under other lights for a color that no surface shows.
        """
        others = lights[1:]
        if not others:
            return self.daylight()[None]
        spectrum = self.spectrum()
        if spectrum is None:
            raise NoAnswer("no surface shows this color, so what it is in another light is unknown")
        seen = [lab_of(spectrum @ w, w.sum(axis=0)) for w in others]
        return np.stack([self.daylight(), *seen])

    def daylight(self) -> Array:
        """L*a*b* in daylight, (3,)."""
        if self.reflectance:
            return lab_of(xyz_of(np.array(self.reflectance)), white_xyz())
        if self.lab is not None:
            return self.lab.array()
        return lab_of(xyz_of_hex(self.color_hex), white_xyz())
