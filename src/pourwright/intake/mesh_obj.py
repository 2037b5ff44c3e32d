"""OBJ: points, and faces of any number of corners, without a unit."""

from __future__ import annotations

import re
from array import array
from collections import defaultdict
from collections.abc import Iterator

import manifold3d
import numpy as np
from numpy.typing import NDArray

from pourwright.intake.mesh_soup import MOST_POINTS, Soup, check_count, refused

MOST_CORNERS = 400
MOST_LINES = 2_000_000
_POINT = re.compile(rb"(?m)^[ \t]*v[ \t]")
_FACE = re.compile(rb"(?m)^[ \t]*f[ \t]")

Array = NDArray[np.float64]
Corners = NDArray[np.int64]


def looks_like(data: bytes) -> bool:
    """Whether the file has a line of a point and a line of a face."""
    return bool(_POINT.search(data) and _FACE.search(data))


def obj(data: bytes) -> Soup:
    """Triangles of the faces; textures, normals, names and free curves are passed over.

    Raises: BadInput naming the line that is off.
    """
    lines = data.count(b"\n")
    if lines > MOST_LINES:
        raise refused(f"{lines:,} lines", f"has more than {MOST_LINES:,} lines")
    check_count(sum(1 for _ in _FACE.finditer(data)))
    points = array("d")
    faces: dict[int, array[int]] = defaultdict(lambda: array("q"))
    for number, words in _lines(data):
        if words[0] == b"v":
            points.extend(_point(words, number))
            if len(points) > 3 * MOST_POINTS:
                raise refused(f"line {number}", f"has more than {MOST_POINTS:,} points")
        elif words[0] == b"f":
            corners = _corners(words[1:], len(points) // 3, number)
            faces[len(corners)].extend(corners)
    check_count(sum((size - 2) * len(rows) // size for size, rows in faces.items()))
    spots = np.array(points).reshape(-1, 3)
    _check_there(faces, len(spots))
    cut = [_cut(spots, np.array(rows).reshape(-1, size)) for size, rows in faces.items()]
    return Soup(spots, np.vstack(cut))


def _lines(data: bytes) -> Iterator[tuple[int, list[bytes]]]:
    """Words of each line that says something; a backslash at its end joins the next."""
    held: list[bytes] = []
    for number, line in enumerate(_ends(data), start=1):
        words = line.partition(b"#")[0].split()
        held += words[:-1] if words and words[-1] == b"\\" else words
        if held and not (words and words[-1] == b"\\"):
            yield number, held
            held = []


def _ends(data: bytes) -> Iterator[bytes]:
    """Lines, one at a time: all at once would take several times the file's room."""
    place = 0
    while place < len(data):
        end = data.find(b"\n", place)
        end = len(data) if end < 0 else end
        yield data[place:end]
        place = end + 1


def _point(words: list[bytes], number: int) -> list[float]:
    try:
        x, y, z = (float(word) for word in words[1:4])
    except ValueError:
        raise refused(_shown(words), f"is no point (line {number})") from None
    return [x, y, z]


def _corners(words: list[bytes], known: int, number: int) -> list[int]:
    """Indices from 0; a negative one counts back from the points read so far."""
    if not 3 <= len(words) <= MOST_CORNERS:
        raise refused(_shown(words), f"is no face of 3 to {MOST_CORNERS} corners (line {number})")
    try:
        given = [int(word.partition(b"/")[0]) for word in words]
    except ValueError:
        raise refused(_shown(words), f"is no face (line {number})") from None
    if 0 in given or min(given) < -known:
        raise refused(_shown(words), f"names a point that is not there (line {number})")
    return [i - 1 if i > 0 else known + i for i in given]


def _check_there(faces: dict[int, array[int]], count: int) -> None:
    highest = max(map(max, faces.values()))
    if highest >= count:
        raise refused(highest + 1, f"is named by a face, but there are {count:,} points")


def _cut(points: Array, faces: Corners) -> Corners:
    """Faces (n, corners) as triangles (m, 3); those that bulge inward are cut ear by ear."""
    size = faces.shape[1]
    fan = [[0, k, k + 1] for k in range(1, size - 1)]
    if size == 3:
        return faces
    round_ = _bulge_out(points[faces])
    odd = [_ears(points[face], face) for face in faces[~round_]]
    return np.vstack([faces[round_][:, fan].reshape(-1, 3), *odd])


def _bulge_out(spots: Array) -> NDArray[np.bool_]:
    """Whether every corner of faces (n, corners, 3) turns the way the face does."""
    edges = np.roll(spots, -1, axis=1) - spots
    turns = np.cross(edges, np.roll(edges, -1, axis=1))
    normal = np.cross(spots, np.roll(spots, -1, axis=1)).sum(axis=1)
    return np.asarray((np.einsum("ijk,ik->ij", turns, normal) >= 0).all(axis=1))


def _ears(spots: Array, face: Corners) -> Corners:
    """Triangles of one face, cut in the plane it lies nearest to."""
    normal = np.cross(spots, np.roll(spots, -1, axis=0)).sum(axis=0)
    drop = int(np.argmax(np.abs(normal)))
    flat = np.delete(spots, drop, axis=1) * ([1, -1] if drop == 1 else [1, 1])
    turned = normal[drop] < 0
    cut = manifold3d.triangulate([np.ascontiguousarray(flat[::-1] if turned else flat)])
    local = np.asarray(cut, dtype=np.int64)
    return face[len(face) - 1 - local[:, ::-1]] if turned else face[local]


def _shown(words: list[bytes]) -> str:
    return b" ".join(words)[:60].decode("utf-8", "replace")
