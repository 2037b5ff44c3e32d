"""Thickness around each place of the skin, against bodies whose thickness is their measure."""

from __future__ import annotations

import math

import manifold3d
import numpy as np
import pytest

from pourwright.body.covering import covering_thickness
from pourwright.body.families.tube import Tube
from pourwright.body.families.worm import Worm

# Every expected value here is the measure that the body was made with; no source.
WITHIN = 0.05


def test_a_ball_is_as_thick_as_wide():
    _, thick = covering_thickness(manifold3d.Manifold.sphere(6.0, 64))
    assert thick == pytest.approx(12.0, rel=WITHIN)


def test_a_plate_is_thin_and_the_rod_beside_it_thick():
    rod = manifold3d.Manifold.cylinder(60, 5.0, 5.0, 64, center=True).rotate((0.0, 90.0, 0.0))
    plate = manifold3d.Manifold.cube((60.0, 40.0, 2.0), center=True).translate((0.0, 24.0, 0.0))
    points, thick = covering_thickness((rod + plate).refine_to_length(1.0))
    inside = np.abs(points[:, 0]) < 24
    fin = inside & (points[:, 1] > 12) & (points[:, 1] < 40)
    body = inside & (points[:, 1] < -1)
    assert np.median(thick[fin]) == pytest.approx(2.0, rel=WITHIN)
    assert np.median(thick[body]) == pytest.approx(10.0, rel=WITHIN)
    assert np.quantile(thick[fin], 0.95) < 3.0
    assert np.quantile(thick[body], 0.05) > 8.0


def test_rings_count_to_the_worm_that_bears_them():
    worm = Worm(length_mm=120, diameter_mm=12, tail_diameter_mm=12, sac_mm=0)
    points, thick = covering_thickness(worm.solid().refine_to_length(2.0))
    body = (points[:, 0] > 20) & (points[:, 0] < 100)
    assert thick[body].min() > 12.0 * 0.8
    assert thick[body].max() <= 12.0 * (1 + WITHIN)


def test_a_tube_is_as_thick_as_its_wall_and_solid_at_its_nose():
    tube = Tube(slits=0)
    points, thick = covering_thickness(tube.solid().refine_to_length(2.5))
    walls = (points[:, 0] > 40) & (points[:, 0] < 80)
    assert thick[walls] == pytest.approx(tube.wall_mm, rel=2 * WITHIN)
    # The nose is solid for 14 mm and 14.5 mm wide; its dome holds the largest ball.
    nose = math.hypot(*points[thick.argmax(), 1:])
    assert points[thick.argmax(), 0] < tube.nose_mm + 1
    assert nose <= tube.diameter_mm / 2 + 0.1
    assert thick.max() == pytest.approx(14.0, rel=0.08)


def test_the_tip_of_a_needle_is_thin():
    """What no ball covers is as thick as the place beside it, never as the whole body."""
    needle = manifold3d.Manifold.cylinder(40, 4.0, 0.0, 48).rotate((0.0, 90.0, 0.0))
    points, thick = covering_thickness(needle.refine_to_length(0.8))
    tip = points[:, 0] > 37
    assert thick[tip].max() < 1.2
