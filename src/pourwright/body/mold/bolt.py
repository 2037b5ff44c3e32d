"""Bolts that hold two halves together."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Bolt(StrEnum):
    """Threads that a hardware store sells; none for clamps."""

    NONE = "none"
    M4 = "M4"
    M5 = "M5"
    M6 = "M6"
    QUARTER_INCH = "1/4 in"


@dataclass(frozen=True, slots=True)
class BoltSize:
    """Clearance hole, nut across its flats, and height of the nut."""

    hole_mm: float
    nut_across_mm: float
    nut_high_mm: float


# Source: ISO 273 medium holes and ISO 4032 nuts; the inch: ASME B18.2.8 normal hole and B18.2.2
# hex nut (all from memory).
SIZES = {
    Bolt.M4: BoltSize(4.5, 7.0, 3.2),
    Bolt.M5: BoltSize(5.5, 8.0, 4.7),
    Bolt.M6: BoltSize(6.6, 10.0, 5.2),
    Bolt.QUARTER_INCH: BoltSize(7.14, 11.1, 5.7),
}
