"""Round rods, cones and balls whose facets enclose the true area."""

from __future__ import annotations

import math

import manifold3d

from pourwright.body.loft import Solid

FACETS = 32


def rod_z(low: float, high: float, wide: float, top_wide: float | None = None) -> Solid:
    """A rod between two heights, its diameter at either end; the same at both if one is given."""
    return _rod(high - low, wide, top_wide, FACETS).translate((0.0, 0.0, low))


def rod_x(
    start: float,
    end: float,
    wide: float,
    end_wide: float | None = None,
    *,
    facets: int = FACETS,
    turned_degrees: float = 0.0,
) -> Solid:
    """A rod or cone along x, its facets turned about its middle."""
    upright = _rod(end - start, wide, end_wide, facets)
    return upright.rotate((0.0, 90.0, 0.0)).rotate((turned_degrees, 0.0, 0.0)).translate(
        (start, 0.0, 0.0)
    )  # fmt: skip


def rod_y(low: float, high: float, wide: float) -> Solid:
    """A rod along y."""
    return _rod(high - low, wide, None, FACETS).rotate((-90.0, 0.0, 0.0)).translate(
        (0.0, low, 0.0)
    )  # fmt: skip


def ball(wide: float) -> Solid:
    """A ball about the origin."""
    return manifold3d.Manifold.sphere(wide / 2, FACETS)


def box(low: tuple[float, float, float], high: tuple[float, float, float]) -> Solid:
    """A box between two corners."""
    size = tuple(b - a for a, b in zip(low, high, strict=True))
    return manifold3d.Manifold.cube(size).translate(low)


def _rod(long: float, wide: float, top_wide: float | None, facets: int) -> Solid:
    grown = math.sqrt(2 * math.pi / (facets * math.sin(2 * math.pi / facets)))
    top = wide if top_wide is None else top_wide
    return manifold3d.Manifold.cylinder(long, grown * wide / 2, grown * top / 2, facets)
