"""The closed skins of a file as one solid: pieces joined, hollows kept."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import manifold3d
import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.body.loft import Solid, joined

MOST_SHELLS = 300
# Of the volume of all pieces: less is a crumb. Of a shell's own: less sticks out of another.
CRUMB_SHARE, OUTSIDE_SHARE = 1e-7, 1e-6
# Of the cube over its length: a body with less is a sheet. A bait has thousands of times this.
SHEET_SHARE = 1e-6


@dataclass(frozen=True, slots=True, eq=False)
class Shell:
    """One closed skin, turned right side out, and whether it was inside out."""

    solid: Solid
    inside_out: bool
    volume: float
    low: Array
    high: Array


@dataclass(frozen=True, slots=True, eq=False)
class _Roles:
    """Shells that bound the body from outside, its hollows, and cores within those."""

    outer: list[Shell]
    hollow: list[Shell]
    core: list[Shell]


@dataclass(frozen=True, slots=True)
class Joined:
    """A solid, and what its shells were: how many, turned over, hollow, joined, crumbs."""

    solid: Solid
    pieces: int
    turned: int
    hollows: int
    joined: int
    crumbs: int


def closed(points: Array, triangles: NDArray[np.int64]) -> Solid:
    """Closed skins as they are. Raises: BadInput if the triangles do not close."""
    solid = manifold3d.Manifold(
        manifold3d.Mesh64(
            vert_properties=np.array(points, dtype=np.float64, order="C"),
            tri_verts=np.array(triangles, dtype=np.uint64, order="C"),
        )
    )
    if solid.status() != manifold3d.Error.NoError:
        raise BadInput("file", "a skin", "does not close: its triangles meet in no sensible way")
    return solid


def arrays(solid: Solid) -> tuple[Array, NDArray[np.int64]]:
    """Points (n, 3) and triangles (m, 3) of a solid."""
    mesh = solid.to_mesh64()
    points = np.asarray(mesh.vert_properties)[:, :3].astype(float)
    return points, np.asarray(mesh.tri_verts).astype(np.int64)


def one_solid(skins: Solid) -> Joined:
    """One solid of closed skins: overlaps count once, a skin inside out within another is hollow.

    Raises: BadInput for too many skins, or skins around nothing.
    """
    parts = skins.decompose()
    if len(parts) > MOST_SHELLS:
        raise BadInput("file", f"{len(parts)} pieces", f"must be at most {MOST_SHELLS}")
    shells = sorted(map(_shell, parts), key=lambda shell: -shell.volume)
    whole = sum(shell.volume for shell in shells)
    _check_thick(whole, shells)
    solids = [shell for shell in shells if shell.volume > CRUMB_SHARE * whole]
    return _joined(_sorted_out(solids), len(solids), len(shells) - len(solids))


def _sorted_out(solids: list[Shell]) -> _Roles:
    """What each shell is, the largest first: only a larger one can hold it."""
    roles = _Roles([], [], [])
    for k, shell in enumerate(solids):
        holders = _around(shell, solids[:k])
        if not holders:
            roles.outer.append(shell)
        elif shell.inside_out != holders[0].inside_out:
            roles.hollow.append(shell)
        elif any(holder in roles.hollow for holder in holders):
            roles.core.append(shell)
    return roles


def _joined(roles: _Roles, count: int, crumbs: int) -> Joined:
    solid = joined(*(s.solid for s in roles.outer))
    met = len(roles.outer) - len(solid.decompose())
    swallowed = count - len(roles.outer) - len(roles.hollow) - len(roles.core)
    if roles.hollow:
        hollows = [s.solid for s in roles.hollow]
        solid = manifold3d.Manifold.batch_boolean([solid, *hollows], manifold3d.OpType.Subtract)
    solid = joined(solid, *(s.solid for s in roles.core))
    return Joined(
        solid=solid,
        pieces=sum(part.volume() > 0 for part in solid.decompose()),
        turned=sum(s.inside_out for s in roles.outer),
        hollows=len(roles.hollow),
        joined=met + swallowed,
        crumbs=crumbs,
    )


def _shell(part: Any) -> Shell:
    volume = part.volume()
    low, high = np.array(part.bounding_box()).reshape(2, 3)
    return Shell(_turned(part) if volume < 0 else part, volume < 0, abs(volume), low, high)


def _turned(part: Solid) -> Solid:
    points, corners = arrays(part)
    return closed(points, corners[:, ::-1])


def _check_thick(whole: float, shells: list[Shell]) -> None:
    size = max((float((shell.high - shell.low).max()) for shell in shells), default=0.0)
    if whole <= SHEET_SHARE * size**3:
        raise BadInput("file", "a sheet", "has a skin but no thickness")


def _around(shell: Shell, larger: list[Shell]) -> list[Shell]:
    """The larger shells that hold all of this one, the largest first."""
    return [
        other
        for other in larger
        if (other.low <= shell.low).all()
        and (shell.high <= other.high).all()
        and (shell.solid - other.solid).volume() < OUTSIDE_SHARE * shell.volume
    ]
