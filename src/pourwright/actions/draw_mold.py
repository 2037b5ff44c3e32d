"""The parts of a mold side by side on the bench, as a screen draws them."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import IntEnum
from typing import Any

import numpy as np
from numpy.typing import NDArray

from pourwright.actions.see_record import Ring
from pourwright.actions.see_solid import CREASE_DEGREES, DrawnSolid
from pourwright.base.draws import Array
from pourwright.body.loft import Solid
from pourwright.body.mold.build import mold_solids
from pourwright.body.mold.master import LIP_MM
from pourwright.body.mold.mold import Mold
from pourwright.body.mold.part import Lies, Part
from pourwright.body.mold.request import MoldInput

# Room between two parts, and how far a drawn skin may leave the true one.
APART_MM, SKIN_MM = 12.0, 0.03
# Of an outline.
RING_MM = 0.1
# The same corner, once as the mold has it and once as the plastic has it.
SAME_MM = 2e-3
KEPT = 4

Whole = NDArray[np.int64]
Place = tuple[float, float, float]


class Face(IntEnum):
    """What a face of a part is."""

    BLOCK = 0
    CAVITY = 1
    FEED = 2


@dataclass(frozen=True, slots=True)
class PartName:
    """A part's name, and where above the part it may stand, in mm."""

    words: str
    at_mm: Place


@dataclass(frozen=True, slots=True, eq=False)
class DrawnMold:
    """Parts as a screen draws them, their outlines and names, and ends that no vent reaches.

    In `solid` the order of filling is the share of a corner's `Face`; thickness is nothing.
    """

    solid: DrawnSolid
    outline_mm: tuple[Ring, ...]
    names: tuple[PartName, ...]
    shut_mm: tuple[Place, ...]


@dataclass(frozen=True, slots=True)
class _Placed:
    """A part and where it lies: turned, then shifted."""

    part: Part
    shift: Place

    def laid(self, solid: Solid) -> Solid:
        """A solid of the shut mold, taken along with the part."""
        return solid.rotate(_turn(self.part)).translate(self.shift)

    def home(self, points: Array) -> Array:
        """Places on the part, as they are in the shut mold."""
        back = points - self.shift
        return back * (1, -1, -1) if self.part.lies is Lies.ROLLED_OVER else back

    def spot(self, x_mm: float, y_mm: float) -> Place:
        """A place of the parting plane."""
        across = -y_mm if self.part.lies is Lies.ROLLED_OVER else y_mm
        return x_mm + self.shift[0], across + self.shift[1], self.shift[2]

    def name(self) -> PartName:
        """The part's name over the middle of its top."""
        low, high = _box(self.laid(self.part.solid))
        x, y, _ = (low + high) / 2
        many = f" × {self.part.copies}" if self.part.copies > 1 else ""
        return PartName(f"{self.part.name}{many}", (float(x), float(y), float(high[2])))


@functools.lru_cache(maxsize=KEPT)
def draw_mold(inputs: MoldInput) -> DrawnMold:
    """A mold, its parts working face up. Raises: as `mold_solids` does."""
    mold = mold_solids(inputs)
    placed = tuple(_side_by_side(mold.parts))
    faces_of = _standing if inputs.route.cast else _cut_by(mold)
    return DrawnMold(
        _together([_drawn(it, faces_of) for it in placed]),
        tuple(ring for it in placed for ring in _rings(mold, it)),
        tuple(it.name() for it in placed),
        tuple(_shut(mold, placed)),
    )


def _shut(mold: Mold, placed: tuple[_Placed, ...]) -> Iterator[Place]:
    """Vents are cut into the second part, and would be there."""
    if mold.layout:
        for shut in mold.layout.outlets.shut:
            yield placed[1].spot(shut.end.x_mm, shut.end.y_mm)


def _side_by_side(parts: tuple[Part, ...]) -> Iterator[_Placed]:
    """Along the shorter side of the first, so that they lie close together."""
    _, size = _box(parts[0].on_bench())  # its lowest corner is the origin
    along = 0 if size[0] < size[1] else 1
    at = 0.0
    for part in parts:
        low, high = _box(part.solid.rotate(_turn(part)))
        # The first lies at the far side of the bench, the next before it.
        shift = np.array([-low[0], -high[1], -low[2]])
        shift[along] += at if along == 0 else -at
        yield _Placed(part, (float(shift[0]), float(shift[1]), float(shift[2])))
        at += high[along] - low[along] + APART_MM


Faces = Callable[[_Placed, Array, Whole], Whole]


def _turn(part: Part) -> Place:
    """As for the files, but for pins: they stand there, and lie here."""
    lies = Lies.AS_CLOSED if part.lies is Lies.ON_ITS_TAIL else part.lies
    turn: Place = lies.value
    return turn


def _drawn(it: _Placed, faces_of: Faces) -> DrawnSolid:
    solid = it.laid(it.part.solid).as_original().simplify(SKIN_MM)
    mesh = solid.calculate_normals(0, CREASE_DEGREES).to_mesh()
    corners = np.asarray(mesh.vert_properties, dtype=np.float64)
    triangles = np.asarray(mesh.tri_verts, dtype=np.int64)
    return _apart(corners, triangles, faces_of(it, it.home(corners[:, :3]), triangles))


def _cut_by(mold: Mold) -> Faces:
    """Faces left by what plastic fills have all their corners from it.

    None lies in the plane that halves meet in, or that an open mold is filled to.
    """
    shot, plastic = (_Corners.of(solid) for solid in (mold.shot, mold.plastic))
    plane = 0.0 if mold.layout else float(mold.shot.bounding_box()[5])

    def faces(_: _Placed, points: Array, triangles: Whole) -> Whole:
        filled = shot.have(points)
        flat = (np.abs(points[:, 2] - plane) < SAME_MM)[triangles].all(axis=1)
        feed = (filled & ~plastic.have(points))[triangles].all(axis=1)
        sorts = np.where(filled[triangles].all(axis=1), int(Face.CAVITY), int(Face.BLOCK))
        return np.where(flat, int(Face.BLOCK), np.where(feed, int(Face.FEED), sorts))

    return faces


def _standing(it: _Placed, points: Array, triangles: Whole) -> Whole:
    """What stands on the plate of a master, within its lip, is what the casting gives way to."""
    inner = (points[:, :2] > points[:, :2].min(axis=0) + LIP_MM + SAME_MM) & (
        points[:, :2] < points[:, :2].max(axis=0) - LIP_MM - SAME_MM
    )
    within = inner.all(axis=1)[triangles].all(axis=1)
    over = (points[:, 2] > SAME_MM)[triangles].any(axis=1)
    stands = over & within & it.part.master
    return np.where(stands, int(Face.CAVITY), int(Face.BLOCK))


@dataclass(frozen=True, slots=True, eq=False)
class _Corners:
    """The corners of a solid that is cut in the parting plane."""

    tree: Any

    @classmethod
    def of(cls, solid: Solid) -> _Corners:
        from scipy.spatial import cKDTree  # noqa: PLC0415  slow to load

        halves = solid.split_by_plane((0.0, 0.0, 1.0), 0.0)
        return cls(cKDTree(np.concatenate([h.to_mesh().vert_properties[:, :3] for h in halves])))

    def have(self, points: Array) -> NDArray[np.bool_]:
        """Which points are among them."""
        far, _ = self.tree.query(points, distance_upper_bound=SAME_MM)
        return np.asarray(np.isfinite(far))


def _apart(corners: Array, triangles: Whole, faces: Whole) -> DrawnSolid:
    """Corners between faces of two sorts stand there once for each."""
    marked = triangles * len(Face) + faces[:, None]
    kept, places = np.unique(marked, return_inverse=True)
    found = corners[kept // len(Face)]
    return DrawnSolid(
        points=found[:, :3].astype(np.float32),
        normals=found[:, 3:6].astype(np.float32),
        thick_mm=np.zeros(len(kept), dtype=np.float32),
        order=(kept % len(Face) / max(Face)).astype(np.float32),
        triangles=places.reshape(-1, 3).astype(np.uint32),
    )


def _together(parts: list[DrawnSolid]) -> DrawnSolid:
    starts = np.cumsum([0, *(len(p.points) for p in parts)])
    return DrawnSolid(
        points=np.concatenate([p.points for p in parts]),
        normals=np.concatenate([p.normals for p in parts]),
        thick_mm=np.concatenate([p.thick_mm for p in parts]),
        order=np.concatenate([p.order for p in parts]),
        triangles=np.concatenate(
            [p.triangles + np.uint32(at) for p, at in zip(parts, starts, strict=False)]
        ),
    )


def _rings(mold: Mold, it: _Placed) -> Iterator[Ring]:
    """The outline of a part from above, and in it that of what plastic fills."""
    own = it.laid(it.part.solid).project()
    inside = it.laid(mold.shot).project() ^ own
    for shadow in (own, inside):
        for ring in shadow.simplify(RING_MM).to_polygons():
            yield tuple((float(x), float(y)) for x, y in ring)


def _box(solid: Solid) -> tuple[Array, Array]:
    low, high = np.array(solid.bounding_box()).reshape(2, 3)
    return low, high
