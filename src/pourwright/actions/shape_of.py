"""The shape of a stored bait: by family, or from a file."""

from __future__ import annotations

import functools

from pourwright.actions.port import Bench
from pourwright.base.mesh import LengthUnit, Mesh
from pourwright.body.body_input import BodyInput
from pourwright.body.loft import Solid
from pourwright.body.measure import MeasureAnswer, MeasureInput, measure
from pourwright.body.packed_mesh import unpacked
from pourwright.shop.mold import Bait
from pourwright.shop.own_shape import OwnShape

# Shapes that are kept at hand; a page asks for the same few again and again.
KEPT = 16


def own_shape_of(bench: Bench, bait: Bait) -> OwnShape | None:
    """The shape that a bait took over from a file, or none. Raises: NotFound if it is gone."""
    if not bait.own_shape:
        return None
    found = bench.records.get(OwnShape.key, bait.own_shape).noun
    return found if isinstance(found, OwnShape) else None


def body_of(bench: Bench, bait: Bait) -> BodyInput | None:
    """The body of a bait, as every calculation about one takes it; none where it has no shape."""
    if bait.shape is not None:
        return BodyInput(family=bait.shape)
    own = own_shape_of(bench, bait)
    if own is None:
        return None
    return BodyInput(file=_mesh(own.packed), placing=own.placing())


def shape_of(bench: Bench, bait: Bait) -> Solid | None:
    """The closed solid of a bait, or none where it has no shape."""
    body = body_of(bench, bait)
    return body.solid() if body else None


def measures_of(bench: Bench, bait: Bait) -> MeasureAnswer | None:
    """Everything that can be measured of a bait's shape, or none where it has none."""
    body = body_of(bench, bait)
    if body is None:
        return None
    return measure(MeasureInput(family=body.family, file=body.file, placing=body.placing))


@functools.lru_cache(maxsize=KEPT)
def _mesh(packed: str) -> Mesh:
    """The same mesh for the same text, so that what was worked out of it is found again."""
    points, triangles = unpacked(packed)
    return Mesh(points, triangles, LengthUnit.MM)
