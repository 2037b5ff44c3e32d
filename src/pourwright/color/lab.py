"""A color by its three CIE numbers."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array
from pourwright.base.field import number, out
from pourwright.base.record import Record
from pourwright.spectrum.color_space import hex_of, lab_of, srgb_of, xyz_of_lab
from pourwright.spectrum.light import BANDS, white_xyz, xyz_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Lab(Record):
    """CIE 1976 L*a*b*, daylight D65, 2 degree observer."""

    lightness: float = number("L*", low=0, high=100)
    a: float = number("a*, green to red", low=-150, high=150)
    b: float = number("b*, blue to yellow", low=-150, high=150)

    def array(self) -> Array:
        """L*, a*, b*."""
        return np.array([self.lightness, self.a, self.b])


@dataclass(frozen=True, slots=True)
class LabBands:
    """A color with its range."""

    lightness: Band = out("L*")
    a: Band = out("a*, green to red")
    b: Band = out("b*, blue to yellow")


def as_lab(lab: Array) -> Lab:
    """A computed color, (3,), as a record; rounding may carry L* a hair beyond its ends."""
    light, a, b = (float(v) for v in lab)
    return Lab(lightness=min(max(light, 0.0), 100.0), a=a, b=b)


def lab_read(values: Array) -> Array:
    """L*a*b* of a reading, which holds either that or 31 reflectances."""
    return lab_of(xyz_of(values), white_xyz()) if len(values) == BANDS else values


def screen_of(lab: Array) -> tuple[str, bool]:
    """A color, (3,), for a screen as #rrggbb, and whether a screen can show it."""
    screen, inside = srgb_of(xyz_of_lab(lab, white_xyz()))
    return hex_of(screen), inside


def screen_color(reflectance: Array) -> str:
    """The daylight color of a reflectance, (31,), as the nearest #rrggbb a screen can show."""
    return hex_of(srgb_of(xyz_of(reflectance))[0])
