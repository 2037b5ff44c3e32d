"""Limbs in the parting plane: legs, feelers and flappers along a bent path."""

from __future__ import annotations

import itertools

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.loft import Solid, swept

# A flapper's neck against its width, and where it is broadest; a shape of our own.
NECK, BROADEST = 0.35, 0.72


def shares(count: int) -> Array:
    """Shares of a limb's path from root (0) to tip (1), ever closer toward the tip."""
    return np.asarray(np.sin(np.pi / 2 * np.linspace(0, 1, count)))


def bent(*corners: tuple[float, float], count: int = 21) -> Array:
    """A smooth path at `shares`, from the first corner to the last, drawn toward those between.

    Source: Farin, Curves and Surfaces for CAGD (2002), section 4.2: de Casteljau's algorithm.
    """
    s = shares(count)[:, None]
    drawn = [np.tile(np.array(corner, dtype=float), (count, 1)) for corner in corners]
    while len(drawn) > 1:
        drawn = [a + (b - a) * s for a, b in itertools.pairwise(drawn)]
    return drawn[0]


def tapered(path: Array, root_mm: float, tip_mm: float, *, flat: float, points: int = 16) -> Solid:
    """A limb that thins evenly and ends round; `flat` is its thickness over its width."""
    s = shares(len(path))
    width = (root_mm + (tip_mm - root_mm) * s) * np.sqrt(1 - s**6)
    return swept(path, width / 2, flat * width / 2, points=points)


def flapper(path: Array, width_mm: float, thick_mm: float) -> Solid:
    """A flat paddle: a narrow neck, then ever broader to a round end."""
    s = shares(len(path))
    broad = NECK + (1 - NECK) * np.sin(np.pi / 2 * np.clip(s / BROADEST, 0, 1)) ** 2
    end = np.sqrt(1 - np.clip((s - BROADEST) / (1 - BROADEST), 0, 1) ** 2)
    thick = thick_mm * (1 - 0.15 * s) * np.sqrt(end)
    return swept(path, width_mm / 2 * broad * end, thick / 2, points=20)
