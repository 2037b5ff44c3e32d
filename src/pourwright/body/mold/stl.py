"""Binary STL: a head of 80 bytes, a count, and fifty bytes to a triangle; millimeters by custom.

Source: the layout that 3D Systems published for stereolithography (from memory).
"""

from __future__ import annotations

import struct

import numpy as np

from pourwright.body.mold.facet import Facets, Points

_HEAD = b"binary STL, millimeters"
_TRIANGLE = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("rest", "<u2")])


def stl_bytes(facets: Facets) -> bytes:
    """The file of a skin, each triangle with the normal that its corners give."""
    corners = facets.points[facets.corners]
    table = np.zeros(len(corners), dtype=_TRIANGLE)
    table["corners"] = corners
    table["normal"] = _normals(corners)
    return _HEAD.ljust(80, b" ") + struct.pack("<I", len(corners)) + table.tobytes()


def stl_soup(data: bytes) -> Points:
    """The triangles of a file, shape (n, 3, 3). Raises: ValueError if its length is wrong."""
    (count,) = struct.unpack_from("<I", data, 80)
    if len(data) != 84 + count * _TRIANGLE.itemsize:
        raise ValueError("the count of triangles does not fit the length of the file")
    return np.frombuffer(data, dtype=_TRIANGLE, offset=84)["corners"].astype(np.float32)


def _normals(corners: Points) -> Points:
    across = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    long = np.linalg.norm(across, axis=1)[:, None]
    return np.asarray(across / np.where(long > 0, long, 1), dtype=np.float32)
