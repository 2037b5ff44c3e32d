"""A color by its three CIE numbers."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.field import number
from pourwright.base.record import Record


@dataclass(frozen=True, slots=True, kw_only=True)
class Lab(Record):
    """CIE 1976 L*a*b*, daylight D65, 2 degree observer."""

    lightness: float = number("L*", low=0, high=100)
    a: float = number("a*, green to red", low=-150, high=150)
    b: float = number("b*, blue to yellow", low=-150, high=150)

    def array(self) -> Array:
        """L*, a*, b*."""
        return np.array([self.lightness, self.a, self.b])
