"""Invented molds and single pushes that the tests of filling share."""

from __future__ import annotations

from typing import Any

import numpy as np

from pourwright.fill.air_way import Air
from pourwright.fill.march import Shot
from pourwright.fill.push import Drive
from pourwright.fill.skin import Chill
from pourwright.fill.slice import Chain, SlicePart, chain_of


def one(value: float) -> np.ndarray:
    return np.array([float(value)])


def piece(
    length: float, width: float, thick: float, copies: int = 1, part: str = "cavity"
) -> dict[str, Any]:
    return {
        "length_mm": length, "width_mm": width, "thick_mm": thick, "copies": copies, "part": part,
    }  # fmt: skip


def feed(cavities: int) -> list[dict[str, Any]]:
    return [
        piece(40, 8, 8, 1, "sprue"),
        piece(22, 6, 6, min(cavities, 2), "runner"),
        piece(4, 4, 4, cavities, "gate"),
    ]


def stick(cavities: int, **known: Any) -> dict[str, Any]:
    """Sticks of 127 mm, side by side."""
    body = [piece(90, 9.5, 9.5, cavities), piece(37, 5, 5, cavities)]
    mold = {"chain": feed(cavities) + body, "cavities": cavities, "mold_c": 30, "bore_mm": 35}
    return mold | {"melt_c": 165} | known


def grub(cavities: int, **known: Any) -> dict[str, Any]:
    """Grubs with a thin wide tail."""
    body = [piece(36, 12, 12, cavities), piece(45, 9, 1.8, cavities)]
    mold = {"chain": feed(cavities) + body, "cavities": cavities, "mold_c": 30, "bore_mm": 35}
    return mold | {"melt_c": 165} | known


def worm(cavities: int, **known: Any) -> dict[str, Any]:
    """Worms of 150 mm that run out thin."""
    body = [piece(75, 9, 9, cavities), piece(40, 7, 7, cavities), piece(35, 4, 4, cavities)]
    mold = {"chain": feed(cavities) + body, "cavities": cavities, "mold_c": 30, "bore_mm": 35}
    return mold | {"melt_c": 165} | known


def tubes(*pieces: tuple[float, float, int]) -> Chain:
    """Round tubes one after the other: length and bore in mm, copies."""
    return chain_of(
        SlicePart(length_mm=length, width_mm=bore, thick_mm=bore, copies=copies)
        for length, bore, copies in pieces
    )


WARM = Chill(one(175), one(160), one(130), one(0.075e-6), one(0))
COLD = Chill(one(165), one(30), one(130), one(0.075e-6), one(0))


def push(
    chain: Chain, *, pressure: float = 1e5, viscosity: float = 2.0, most: float = np.inf,
    chill: Chill = WARM, air: float = 0.0,
) -> Shot:  # fmt: skip
    """One push in one draw; in warm molds nothing sets."""
    return Shot(chain, Drive(one(pressure), one(most)), one(viscosity), chill, Air(one(air)))
