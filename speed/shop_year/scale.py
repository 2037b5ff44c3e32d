"""How big a year is."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Scale:
    """Looks, molds, poured lots and orders of a year."""

    looks: int = 60
    molds: int = 12
    lots: int = 400
    orders: int = 900
    seed: int = 1
    year: int = 2025


SMALL = Scale(looks=6, molds=3, lots=20, orders=36)
