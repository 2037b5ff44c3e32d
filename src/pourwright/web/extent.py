"""How large a thing is, in the bench's own unit."""

from __future__ import annotations

from pourwright.base.units import UNITS
from pourwright.web.show import Settings, exactly


def extent(length_mm: float, width_mm: float, height_mm: float, settings: Settings) -> str:
    """Length, width and height in one line."""
    sides = (length_mm, width_mm, height_mm)
    return " × ".join(exactly(side, UNITS["mm"], settings) for side in sides)
