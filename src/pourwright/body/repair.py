"""From the triangles of a file to one closed solid, and in words what was put right."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.mesh import LengthUnit, Mesh, signed_volume
from pourwright.body.hole import CRACK_SHARE, Hole, filled
from pourwright.body.loft import Solid
from pourwright.body.shell import Joined, arrays, closed, one_solid
from pourwright.body.simplify import MEANT, simplified
from pourwright.body.weld import once, welded, with_area
from pourwright.body.winding import agreeing, open_edges

Corners = NDArray[np.int64]

# Points this near, as a share of the size, are one; tried from equal points up.
STEPS = (0.0, 1e-6, 1e-5)
# A change of volume smaller than this is rounding.
SAME = 1e-6


def repaired(
    points: Array,
    triangles: Corners,
    unit: LengthUnit | None = None,
    said: tuple[str, ...] = (),
) -> Mesh:
    """The body that some triangles mean: closed, right side out, its overlaps counted once.

    `said` is what their reader has to say of them.

    Raises: BadInput for triangles that mean no body.
    """
    middle = (points.min(axis=0) + points.max(axis=0)) / 2
    size = float(np.ptp(points, axis=0).max())
    stands = abs(signed_volume(points, triangles)) / size**3
    spots, corners, notes = _skin((points - middle) / size, triangles)
    whole = one_solid(closed(spots, corners))
    notes += _shell_notes(whole)
    solid = whole.solid
    if notes:
        notes.append(_moved(stands, solid.volume()))
    plain, share = simplified(solid)
    if share:
        notes.append(_cut_note(solid, plain, share))
    spots, corners = arrays(plain)
    return Mesh(spots * size + middle, corners, unit, (*said, *notes))


def _skin(points: Array, triangles: Corners) -> tuple[Array, Corners, list[str]]:
    """A skin without open edges, of a body of size 1, and what that took."""
    spots, corners = welded(points, triangles)
    thin = len(corners) - len(with_area(corners))
    corners = with_area(corners)
    single = once(corners)
    notes = list(_dropped_notes(thin, len(corners) - len(single)))
    corners = single
    for step in STEPS:
        if step:
            spots, corners = welded(spots, corners, step)
            corners = with_area(corners)
        if not len(corners):
            raise BadInput("file", "only points and lines", "holds no surface at all")
        edges = open_edges(corners)
        if not len(edges):
            return spots, corners, notes
    corners, turned = agreeing(corners)
    if turned:
        notes.append(f"Turned {turned:,} {_facets(turned)} over that faced the other way.")
    closed_up = filled(spots, corners, open_edges(corners))
    notes += _hole_notes([hole for hole in closed_up.holes if hole.share > CRACK_SHARE])
    return closed_up.points, closed_up.triangles, notes


def _dropped_notes(thin: int, double: int) -> Iterator[str]:
    if thin:
        yield f"Dropped {thin:,} {_facets(thin)} without any area."
    if double:
        yield f"Dropped {double:,} {_facets(double)} that lay on another."


def _hole_notes(holes: list[Hole]) -> Iterator[str]:
    if holes:
        together, widest = sum(h.share for h in holes), max(h.width for h in holes)
        yield (
            f"Closed {len(holes)} small hole{'s' * (len(holes) > 1)}, {together:.2%} of the skin; "
            f"the widest measures {widest:.1%} of the length."
        )


def _shell_notes(whole: Joined) -> Iterator[str]:
    if whole.turned:
        yield "Turned the skin right side out."
    if whole.joined:
        yield f"Joined {whole.joined + 1} pieces that meet, so that no plastic counts twice."
    if whole.crumbs:
        yield f"Dropped {whole.crumbs} crumb{'s' * (whole.crumbs > 1)} too small to matter."
    if whole.hollows:
        many = f"{whole.hollows} hollows" if whole.hollows > 1 else "a hollow"
        yield f"Found {many} inside."
    if whole.pieces > 1:
        yield f"The body lies in {whole.pieces} pieces that do not touch."


def _cut_note(solid: Solid, plain: Solid, share: float) -> str:
    coarse = f", more than the {MEANT:.2%} meant" if share > MEANT else ""
    return (
        f"Cut from {solid.num_tri():,} to {plain.num_tri():,} triangles of the same volume; "
        f"the skin moved by about {share:.3%} of the length{coarse}."
    )


def _moved(before: float, after: float) -> str:
    if abs(after - before) < SAME * after:
        return "Repairs left the volume as it was."
    if not 0.4 <= before / after <= 2.5:
        return f"As it stands, the file encloses {before / after:.1%} of the volume it means."
    return f"Repairs changed the volume by {after / before - 1:+.2%}."


def _facets(count: int) -> str:
    return "facet" if count == 1 else "facets"
