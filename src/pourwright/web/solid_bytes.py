"""A drawn solid as it travels to the browser, and is kept there as long as it stays the same."""

from __future__ import annotations

import gzip
import hashlib

import numpy as np
from starlette.requests import Request
from starlette.responses import Response

from pourwright.actions.see_solid import DrawnSolid

MAGIC = b"PWS1"
# Fast, and within a few percent of the smallest.
EFFORT = 5
NOT_MODIFIED = 304


def packed(solid: DrawnSolid) -> bytes:
    """Magic, corners, triangles and a spare word; then float32 points, normals, thickness and
    order, and uint32 triangles, all little-endian.
    """
    counts = np.array([len(solid.points), len(solid.triangles), 0], dtype="<u4")
    floats = (solid.points, solid.normals, solid.thick_mm, solid.order)
    parts = [MAGIC, counts.tobytes(), *(a.astype("<f4").tobytes() for a in floats)]
    return b"".join([*parts, solid.triangles.astype("<u4").tobytes()])


def sent(solid: DrawnSolid, request: Request) -> Response:
    """The bytes, pressed where the browser takes that, or word that it has them already."""
    plain = packed(solid)
    mark = f'"{hashlib.sha256(plain).hexdigest()[:32]}"'
    headers = {"etag": mark, "cache-control": "private, no-cache", "vary": "accept-encoding"}
    if mark in request.headers.get("if-none-match", ""):
        return Response(status_code=NOT_MODIFIED, headers=headers)
    if "gzip" not in request.headers.get("accept-encoding", ""):
        return Response(plain, headers=headers, media_type="application/octet-stream")
    pressed = gzip.compress(plain, EFFORT, mtime=0)
    headers["content-encoding"] = "gzip"
    return Response(pressed, headers=headers, media_type="application/octet-stream")
