"""Thickness maps from all sides against the mean chord of convex bodies."""

from __future__ import annotations

import math

import manifold3d
import numpy as np
import pytest

from pourwright.body.thickness_map import Direction, seen


def mean_chord_mm(solid: manifold3d.Manifold, directions: int) -> float:
    """Over rays that come evenly from all sides: volume of all views over their shadows."""
    volume = shadow = 0.0
    for i in range(directions):
        # A spiral of even steps in height and golden turns strews directions evenly.
        height, turn = (i + 0.5) / directions, math.degrees(i * math.pi * (3 - math.sqrt(5)))
        tilted = solid.rotate((0.0, 0.0, turn)).rotate((0.0, math.degrees(math.acos(height)), 0.0))
        view = seen(tilted, Direction.PULL, 320)
        volume += view.volume_mm3
        shadow += np.count_nonzero(view.thick_mm) * view.grid.pitch**2
    return volume / shadow


BALL = manifold3d.Manifold.sphere(5.0, 96)
ROD = manifold3d.Manifold.cylinder(24.0, 4.0, circular_segments=96)
BOX = manifold3d.Manifold.cube((20.0, 8.0, 5.0))


@pytest.mark.parametrize(
    ("solid", "directions", "volume", "surface"),
    [
        (BALL, 3, 4 / 3 * math.pi * 5**3, 4 * math.pi * 5**2),
        (ROD, 24, math.pi * 4**2 * 24, 2 * math.pi * 4 * (4 + 24)),
        (BOX, 24, 20 * 8 * 5, 2 * (20 * 8 + 20 * 5 + 8 * 5)),
    ],
    ids=["ball", "rod", "box"],
)
def test_the_mean_chord_is_four_volumes_over_the_surface(solid, directions, volume, surface):
    # Cauchy, Mémoire sur la rectification des courbes et la quadrature des surfaces courbes
    # (1832): the mean shadow is a quarter of the surface, so the mean chord is 4·V/S.
    assert mean_chord_mm(solid, directions) == pytest.approx(4 * volume / surface, rel=0.01)


@pytest.mark.parametrize(
    ("solid", "widest"),
    [(BALL, 10.0), (ROD.rotate((0.0, 90.0, 0.0)), 8.0), (BOX, 5.0)],
    ids=["ball", "rod", "box"],
)
def test_the_longest_chord_is_the_thickness(solid, widest):
    view = seen(solid, Direction.PULL, 320)
    assert view.thick_mm.max() == pytest.approx(widest, rel=2e-3)
    assert view.unbalanced == 0
