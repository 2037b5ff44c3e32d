"""A drawn solid as it travels to the browser, and is kept there as long as it stays the same."""

from __future__ import annotations

import numpy as np
from starlette.requests import Request
from starlette.responses import Response

from pourwright.actions.see_solid import DrawnSolid
from pourwright.web.marked_answer import marked

MAGIC = b"PWS1"


def packed(solid: DrawnSolid) -> bytes:
    """Magic, corners, triangles and a spare word; then float32 points, normals, thickness and
    order, and uint32 triangles, all little-endian.
    """
    counts = np.array([len(solid.points), len(solid.triangles), 0], dtype="<u4")
    floats = (solid.points, solid.normals, solid.thick_mm, solid.order)
    parts = [MAGIC, counts.tobytes(), *(a.astype("<f4").tobytes() for a in floats)]
    return b"".join([*parts, solid.triangles.astype("<u4").tobytes()])


def sent(solid: DrawnSolid, request: Request) -> Response:
    """The bytes, or word that the browser has them already."""
    return marked(packed(solid), request, "application/octet-stream", press=True)
