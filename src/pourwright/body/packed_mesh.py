"""A mesh packed into a line of text, and back: small enough to keep in a record."""

from __future__ import annotations

import base64
import binascii
import struct
import zlib

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.body.loft import Solid
from pourwright.body.shell import arrays

MOST_TEXT = 700_000
MOST_TRIANGLES = 60_000
# Places on a grid of this many steps over the longest side: 0.1 µm on a bait of 120 mm.
STEPS = 2**20 - 1
_HEAD = struct.Struct("<4sII4d")
_MARK = b"PWM1"
_PLACE = 12
_MOST_BYTES = _HEAD.size + MOST_TRIANGLES * (_PLACE + 12)

Corners = NDArray[np.int64]


def packed(points: Array, triangles: Corners) -> str:
    """Points rounded to a fine grid, and the triangles between them, as text.

    Raises: BadInput for a mesh that does not fit into a record.
    """
    if len(triangles) > MOST_TRIANGLES:
        raise _too_fine(triangles)
    low = points.min(axis=0)
    step = float((points.max(axis=0) - low).max()) / STEPS
    places = np.round((points - low) / step).astype("<u4")
    jumps = np.diff(triangles.ravel(), prepend=0).astype("<i4")
    head = _HEAD.pack(_MARK, len(points), len(triangles), *low.tolist(), step)
    body = head + _planes(places).tobytes() + _planes(jumps).tobytes()
    text = base64.b64encode(zlib.compress(body)).decode()
    if len(text) > MOST_TEXT:
        raise _too_fine(triangles)
    return text


def unpacked(text: str) -> tuple[Array, Corners]:
    """Points and triangles of a packed mesh. Raises: BadInput for any other text."""
    body = _bytes(text)
    try:
        mark, points, triangles, *low, step = _HEAD.unpack_from(body)
    except struct.error as error:
        raise _foreign(text) from error
    split = _HEAD.size + _PLACE * points
    if mark != _MARK or len(body) != split + 12 * triangles or not np.isfinite([*low, step]).all():
        raise _foreign(text)
    places = _numbers(body[_HEAD.size : split], "<u4").reshape(-1, 3)
    jumps = _numbers(body[split:], "<i4").astype(np.int64)
    corners = np.cumsum(jumps).reshape(-1, 3)
    if not triangles or corners.min() < 0 or corners.max() >= points:
        raise _foreign(text)
    return places * step + np.array(low), corners


def packed_solid(solid: Solid) -> str:
    """A solid as text. Raises: BadInput as `packed` does."""
    return packed(*arrays(solid))


def _planes(numbers: NDArray[np.integer]) -> NDArray[np.uint8]:
    """The low bytes of all numbers, then the next: what is alike stands together and packs well."""
    return np.ascontiguousarray(numbers.reshape(-1, 1).view(np.uint8).T)


def _numbers(planes: bytes, kind: str) -> NDArray[np.integer]:
    bytes_ = np.frombuffer(planes, np.uint8).reshape(4, -1).T
    return np.ascontiguousarray(bytes_).view(kind).ravel()


def _bytes(text: str) -> bytes:
    unpacking = zlib.decompressobj()
    try:
        body = unpacking.decompress(base64.b64decode(text, validate=True), _MOST_BYTES)
    except (binascii.Error, zlib.error, ValueError) as error:
        raise _foreign(text) from error
    if unpacking.unconsumed_tail or not unpacking.eof:
        raise _foreign(text)
    return body


def _too_fine(triangles: Corners) -> BadInput:
    why = "is too fine or too rough a skin to keep; make it coarser or smoother where it was made"
    return BadInput("file", f"{len(triangles):,} triangles", why)


def _foreign(text: str) -> BadInput:
    return BadInput("packed", text[:20], "is no packed mesh")
