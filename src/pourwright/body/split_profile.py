"""The round of plastic about a bait's middle, without its legs, fins and claws."""

from __future__ import annotations

from typing import Any

import manifold3d
import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import NoAnswer
from pourwright.body.division import Profile
from pourwright.body.loft import Solid

STATIONS = 64
# Sections are cut this share of the length inside both tips.
TIP_SHARE = 1e-3
# Legs and fins thinner than this share of the body are left out of a section: estimate.
THIN_SHARE = 0.5
# A section whose largest piece is less than this of it has no middle, as between two lobes.
WHOLE_SHARE = 0.6
HALVINGS = 5
# Corners of a section that move its edge by less are left out, and a round of an offset has so
# many sides: the body's middle is known far worse.
PLAIN_MM, SIDES = 0.02, 12
# (x, y, z) to (y, z, x), so that a slice lies across the length.
_TURNED = np.array([[0.0, 1, 0, 0], [0, 0, 1, 0], [1, 0, 0, 0]])


def profile_of(solid: Solid, up: int) -> Profile:
    """Middle and half of the plastic at 64 stations; a half is 0 where there is no one middle."""
    nose, tail = solid.bounding_box()[0], solid.bounding_box()[3]
    inside = TIP_SHARE * (tail - nose)
    station = np.linspace(nose + inside, tail - inside, STATIONS)
    turned = solid.transform(_TURNED)
    bounds = np.array([_bounds(turned.slice(float(x))) for x in station])
    low, high = _carried(bounds[:, :2]), _carried(bounds[:, 2:])
    middle, half = (low + high) / 2, np.where(np.isnan(bounds[:, :2]), 0.0, (high - low) / 2)
    vertical, lateral = up - 1, 2 - up
    return Profile(
        station, middle[:, vertical], half[:, vertical], middle[:, lateral], half[:, lateral]
    )


def _bounds(section: Any) -> tuple[float, float, float, float]:
    """Low and high ends of the thick of a section, not a number where it has no one middle."""
    if section.is_empty():
        return (np.nan,) * 4
    plain = section.simplify(PLAIN_MM)
    thin = THIN_SHARE * _inradius(plain)
    piece = max(_offset(plain, -thin).decompose(), key=lambda part: part.area())
    thick = _offset(piece, thin)
    if thick.area() < WHOLE_SHARE * section.area():
        return (np.nan,) * 4
    low_y, low_z, high_y, high_z = thick.bounds()
    return low_y, low_z, high_y, high_z


def _offset(section: Any, by_mm: float) -> Any:
    return section.offset(by_mm, manifold3d.JoinType.Round, 2.0, SIDES)


def _inradius(section: Any) -> float:
    """Radius of the largest circle within a section, a little under."""
    low_y, low_z, high_y, high_z = section.bounds()
    fits, too_far = 0.0, min(high_y - low_y, high_z - low_z) / 2
    for _ in range(HALVINGS):
        middle = (fits + too_far) / 2
        if _offset(section, -middle).is_empty():
            too_far = middle
        else:
            fits = middle
    return fits


def _carried(ends: Array) -> Array:
    """Ends where a section has none, taken from the nearest station toward the nose."""
    known = np.flatnonzero(~np.isnan(ends[:, 0]))
    if not len(known):
        raise NoAnswer("this shape has no one middle along its length, so no layers lie about it")
    nearest = known[np.clip(np.searchsorted(known, np.arange(len(ends)), "right") - 1, 0, None)]
    return np.asarray(ends[nearest])
