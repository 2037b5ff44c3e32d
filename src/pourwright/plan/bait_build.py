"""What of a bait's shape the layers of a look ask for, kept for the shapes used last."""

from __future__ import annotations

import functools

from pourwright.base.mesh import LengthUnit, Mesh
from pourwright.body.body_input import BodyInput
from pourwright.body.division_of import Build, build_of
from pourwright.body.family import Family
from pourwright.body.packed_mesh import unpacked
from pourwright.body.placing import Placing
from pourwright.shop.mold import Bait
from pourwright.shop.own_shape import OwnShape

# Shapes that are kept at hand; a page asks for the same few again and again.
KEPT = 16


def bait_build(bait: Bait, own: OwnShape | None = None) -> Build | None:
    """The build of a bait, or none where it has no shape; `own` is its shape from a file."""
    if bait.shape is not None:
        return _of_family(bait.shape)
    return _of_file(own.packed, own.placing()) if own else None


@functools.lru_cache(maxsize=KEPT)
def _of_family(family: Family) -> Build:
    return build_of(family.solid(), family.up())


@functools.lru_cache(maxsize=KEPT)
def _of_file(packed: str, placing: Placing) -> Build:
    points, triangles = unpacked(packed)
    mesh = Mesh(points, triangles, LengthUnit.MM)
    body = BodyInput(file=mesh, placing=placing)
    return build_of(body.solid(), body.up())
