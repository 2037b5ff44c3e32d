"""How a body from a file lies in a mold: nose at x = 0, pull along z, parting plane at z = 0."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import flag, pick
from pourwright.base.record import Record
from pourwright.body.loft import Solid
from pourwright.body.one_bait import one_bait
from pourwright.body.shell import arrays

# A longest direction this near to an axis of the file is taken for that axis: estimate.
AXIS_COSINE = math.cos(math.radians(20))
# Extents that differ by less are equal, and so are the two ends of a bait; shares of its length.
EVEN_SHARE = 0.01
# The nose: this share of the length.
NOSE_SHARE = 0.03
# Sections whose area is within this share of the widest are as wide; heights looked at at a time.
AS_WIDE, HEIGHTS = 2e-3, 21


class FileAxis(StrEnum):
    """An axis as the file names it."""

    X = "x"
    Y = "y"
    Z = "z"

    @property
    def direction(self) -> Array:
        """Unit vector along it."""
        return np.asarray(np.eye(3)["xyz".index(self.value)])


@dataclass(frozen=True, slots=True, kw_only=True)
class Placing(Record):
    """How the body of a file is to lie; what is left out is proposed from its shape."""

    length: FileAxis | None = pick(
        "Axis of the file along the bait; left out: its longest direction", default=None
    )
    pull: FileAxis | None = pick(
        "Axis of the file along which the mold opens; left out: its thinnest direction",
        default=None,
    )
    nose_at_other_end: bool = flag("The nose is at the other end than proposed, the lighter one")
    upside_down: bool = flag("The upper half of the file is the lower half of the bait")
    on_side: bool = flag("It lies on its side: its back points across the pull, to +y")
    as_it_lies: bool = flag("The file lies in the mold already: nose at x = 0, pull along z")

    def check(self) -> None:
        """Refuse a mold that opens along the bait, and choices for a body that lies already."""
        chosen = self.length or self.pull or self.nose_at_other_end or self.upside_down
        if self.as_it_lies and chosen:
            raise BadInput("as_it_lies", True, "leaves no axis and no end to choose")
        if self.length is not None and self.length is self.pull:
            raise BadInput("pull", self.pull.value, "must be another axis than the length")


@dataclass(frozen=True, slots=True, eq=False)
class Placed:
    """A solid where the house wants it, and in words what was filled and proposed."""

    solid: Solid
    notes: tuple[str, ...]


def placed(solid: Solid, placing: Placing) -> Placed:
    """A solid turned and moved as chosen; for the rest, as its shape suggests.

    The parting plane goes where the section across the pull is widest; the middle of the nose
    comes to lie at y = 0.
    Raises: BadInput for a body in several pieces, or with a hollow inside.
    """
    solid, filled = one_bait(solid)
    if placing.as_it_lies:
        return Placed(solid, filled)
    spread, middle = moments(solid)
    box = np.array(solid.bounding_box()).reshape(2, 3)
    length, pull = _directions(placing, spread, box)
    nose_first, sure = _from_nose(solid, middle, length)
    along = -nose_first if placing.nose_at_other_end else nose_first
    up = -pull if placing.upside_down else pull
    turn = np.stack([along, np.cross(up, along), up])
    turned = solid.transform(np.column_stack([turn, np.zeros(3)]))
    proposed = _notes(placing, length, pull, nose_first, sure=sure)
    return Placed(_settled(turned), (*filled, *proposed))


def moments(solid: Solid) -> tuple[Array, Array]:
    """Spread of a solid about its center of mass (3, 3), mm², and that center (3,), mm.

    Source: Gauss, divergence theorem, over the tetrahedra from the origin to each triangle.
    """
    points, triangles = arrays(solid)
    corners = points[triangles]
    six = np.einsum("ij,ij->i", corners[:, 0], np.cross(corners[:, 1], corners[:, 2]))
    total = corners.sum(axis=1)
    middle = (six @ total) / 4 / six.sum()
    square = np.einsum("i,ij,ik->jk", six, total, total)
    square += np.einsum("i,inj,ink->jk", six, corners, corners)
    return square / 20 / six.sum() - np.outer(middle, middle), middle


def _directions(placing: Placing, spread: Array, box: Array) -> tuple[Array, Array]:
    """Unit vectors along the bait and along the pull, at right angles."""
    pull = None if placing.pull is None else placing.pull.direction
    if placing.length is not None:
        length = placing.length.direction
    else:
        length = _longest(spread if pull is None else _across(spread, pull))
    if pull is None:
        pull = _thinnest(spread, box, length)
    return length, _unit(pull - (pull @ length) * length)


def _across(spread: Array, direction: Array) -> Array:
    """Spread within the plane at right angles to a direction."""
    flat = np.eye(3) - np.outer(direction, direction)
    return np.asarray(flat @ spread @ flat)


def _longest(spread: Array) -> Array:
    direction = np.linalg.eigh(spread)[1][:, -1]
    nearest = int(np.argmax(np.abs(direction)))
    if abs(direction[nearest]) >= AXIS_COSINE:
        return np.asarray(np.eye(3)[nearest])
    return np.asarray(direction * np.sign(direction[nearest]))


def _thinnest(spread: Array, box: Array, length: Array) -> Array:
    """Of two axes the thinner, or the later; off the axes the direction of least spread."""
    if np.max(length) < 1:
        direction = np.linalg.eigh(
            _across(spread, length) + spread.max() * np.outer(length, length)
        )
        least = direction[1][:, 0]
        return np.asarray(least * np.sign(least[np.argmax(np.abs(least))]))
    one, other = np.flatnonzero(length == 0)
    extents = box[1] - box[0]
    even = abs(extents[one] - extents[other]) < EVEN_SHARE * extents.max()
    return np.asarray(np.eye(3)[other if even or extents[other] < extents[one] else one])


def _from_nose(solid: Solid, middle: Array, length: Array) -> tuple[Array, bool]:
    """The direction from the heavier end to the lighter, and whether they differ."""
    reach = arrays(solid)[0] @ length
    low, high = float(reach.min()), float(reach.max())
    lean = float(middle @ length) - (low + high) / 2
    sure = abs(lean) > EVEN_SHARE * (high - low)
    return (-length if sure and lean > 0 else length), sure


def _settled(solid: Solid) -> Solid:
    """Moved to the nose at x = 0 and y = 0, and to the parting plane at z = 0."""
    low, high = np.array(solid.bounding_box()).reshape(2, 3)
    nose = solid.trim_by_plane((-1.0, 0.0, 0.0), -(low[0] + NOSE_SHARE * (high[0] - low[0])))
    near, far = np.array(nose.bounding_box()).reshape(2, 3)
    return solid.translate((-low[0], -(near[1] + far[1]) / 2, -_widest(solid, low[2], high[2])))


def _widest(solid: Solid, low: float, high: float) -> float:
    """Height of the widest section; the middle where several are as wide. Looked at twice, the
    second time only where the first found it.
    """
    wide = np.array([low, high])
    for _ in range(2):
        step = (high - low) / HEIGHTS
        heights = low + step * (np.arange(HEIGHTS) + 0.5)
        areas = np.array([solid.slice(float(h)).area() for h in heights])
        wide = heights[areas >= (1 - AS_WIDE) * areas.max()]
        low, high = float(wide[0]) - step, float(wide[-1]) + step
    return float(wide[0] + wide[-1]) / 2


def _notes(
    placing: Placing, length: Array, pull: Array, nose_first: Array, *, sure: bool
) -> list[str]:
    proposed = []
    if placing.length is None:
        proposed.append(f"the bait lies along {_named(length)}")
    if placing.pull is None:
        proposed.append(f"the mold opens along {_named(pull)}")
    end = "lower" if nose_first @ length > 0 else "upper"
    why = "the heavier" if sure else "the ends are even"
    if not placing.nose_at_other_end:
        proposed.append(f"the nose is its {end} end ({why})")
    return [f"Proposed from the shape: {', '.join(proposed)}."] if proposed else []


def _named(direction: Array) -> str:
    axis = "xyz"[int(np.argmax(np.abs(direction)))]
    off = math.degrees(math.acos(min(1.0, float(np.abs(direction).max()))))
    return f"the file's {axis}" if off < 0.01 else f"a line {off:.0f}° off the file's {axis}"


def _unit(direction: Array) -> Array:
    return np.asarray(direction / np.linalg.norm(direction))
