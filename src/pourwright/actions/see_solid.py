"""A body as a screen draws it: corners with their normals, thickness and order of filling."""

from __future__ import annotations

import functools
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.actions.port import Bench
from pourwright.actions.see_record import Ring
from pourwright.actions.shape_of import body_of
from pourwright.base.draws import Array
from pourwright.base.errors import NotFound
from pourwright.body.body_input import BodyInput
from pourwright.body.covering import covering_thickness
from pourwright.body.families import FAMILIES
from pourwright.body.family import Family
from pourwright.body.filling import FillingMap, filling_map, nose_xy
from pourwright.body.loft import Solid
from pourwright.shop.mold import Bait

# Edges that turn by more than this are drawn as edges, all others as smooth skin.
CREASE_DEGREES = 40.0
# A picture the size of a stamp shows nothing finer than this share of the bait's length.
STAMP_SHARE = 1 / 1500
# An outline in such a picture.
OUTLINE_SHARE = 1 / 400
KEPT = 32
# Values at so many of the nearest places are mixed, smoothed over this share of their distance.
NEAREST, SMOOTHED = 4, 0.3
# Triangles are cut to this share of the bait's length, unless they become too many to send.
EVEN_SHARES = (1 / 60, 1 / 40, 1 / 25, 1 / 15)
MOST_TRIANGLES = 30_000
TINY_MM = 1e-6

Floats = NDArray[np.float32]


@dataclass(frozen=True, slots=True, eq=False)
class DrawnSolid:
    """Corners and the triangles between them, right side out.

    Every array has one row a corner: points in mm, unit normals, diameter of the largest inside
    ball that covers the place in mm, share of the volume that is filled before the place. A corner
    on a crease stands there once for each side of it.
    """

    points: Floats
    normals: Floats
    thick_mm: Floats
    order: Floats
    triangles: NDArray[np.uint32]


@dataclass(frozen=True, slots=True)
class FamilyView:
    """A family at its usual measures; `sides_mm` are length, width and extent along the pull."""

    family: type[Family]
    sides_mm: tuple[float, float, float]
    volume_ml: float
    outline_mm: tuple[Ring, ...]


def see_solid(bench: Bench, id: str) -> DrawnSolid:
    """The body of a stored bait. Raises: NotFound where nobody has given its shape."""
    bait = bench.records.get(Bait.key, id).noun
    body = body_of(bench, bait) if isinstance(bait, Bait) else None
    if body is None:
        raise NotFound(f"{bait.name!r} has no shape yet")
    return _of_body(body)


def see_family(key: str) -> DrawnSolid:
    """A family at its usual measures, coarse enough for a small picture. Raises: NotFound."""
    if key not in FAMILIES:
        raise NotFound(f"there is no shape called {key!r}")
    return _stamp(key)


def see_families() -> tuple[FamilyView, ...]:
    """Every family there is."""
    return tuple(_family_view(key) for key in FAMILIES)


@functools.lru_cache(maxsize=KEPT)
def _family_view(key: str) -> FamilyView:
    solid = FAMILIES[key]().solid()
    long, wide, high = _sides(solid)
    shadow = solid.project().simplify(long * OUTLINE_SHARE).to_polygons()
    rings = tuple(tuple((float(x), float(y)) for x, y in ring) for ring in shadow)
    return FamilyView(FAMILIES[key], (long, wide, high), solid.volume() / 1000, rings)


@functools.lru_cache(maxsize=KEPT)
def _stamp(key: str) -> DrawnSolid:
    """Of a small picture only thin and thick are seen: the gaps of its filling map tell them."""
    solid = FAMILIES[key]().solid()
    coarse = solid.simplify(_sides(solid)[0] * STAMP_SHARE)
    filled = filling_map(coarse, nose_xy(coarse))
    return _dressed(coarse, filled, thick=(filled.xy, filled.gap_mm))


def _sides(solid: Solid) -> tuple[float, float, float]:
    low, high = np.array(solid.bounding_box()).reshape(2, 3)
    long, wide, tall = (float(v) for v in high - low)
    return long, wide, tall


@functools.lru_cache(maxsize=KEPT)
def _of_body(body: BodyInput) -> DrawnSolid:
    return drawn(body.solid())


def drawn(solid: Solid) -> DrawnSolid:
    """A solid with all that a screen can show of it."""
    even = _even(solid)
    filled = filling_map(solid, nose_xy(solid))
    return _dressed(even, filled, thick=covering_thickness(even))


def _dressed(solid: Solid, filled: FillingMap, thick: tuple[Array, Array]) -> DrawnSolid:
    """The corners of a solid; `thick` is where thickness is known, and how much it is there."""
    smooth = solid.calculate_normals(0, CREASE_DEGREES).to_mesh()
    corners = np.asarray(smooth.vert_properties, dtype=np.float32)
    points = np.ascontiguousarray(corners[:, :3])
    return DrawnSolid(
        points=points,
        normals=np.ascontiguousarray(corners[:, 3:6]),
        thick_mm=_known(*thick, points),
        order=_known(filled.xy, filled.order, points),
        triangles=np.asarray(smooth.tri_verts, dtype=np.uint32),
    )


def _even(solid: Solid) -> Solid:
    """A solid without long triangles: what is known at corners is drawn straight between them."""
    for share in EVEN_SHARES:
        cut = solid.refine_to_length(_sides(solid)[0] * share)
        if cut.num_tri() <= MOST_TRIANGLES:
            return cut
    return solid


def _known(places: Array, values: Array, points: Floats) -> Floats:
    """Values known at some places, or for whole columns, at points: the nearer the more.

    Of the cells of a grid the nearest alone would draw their steps.
    """
    from scipy.spatial import cKDTree  # noqa: PLC0415  slow to load

    asked = points[:, : places.shape[1]]
    far, place = cKDTree(places).query(asked, k=range(1, min(NEAREST, len(places)) + 1))
    weight = 1 / (far + SMOOTHED * np.mean(far) + TINY_MM) ** 2
    weight /= weight.sum(axis=1, keepdims=True)
    return np.asarray(np.einsum("ij,ij->i", values[place], weight), dtype=np.float32)
