"""A made-up photo for the worked example: the 24 patches and one puck on a white card."""

from __future__ import annotations

import base64
import struct
import zlib
from typing import Any

import numpy as np
from numpy.typing import NDArray

from pourwright.spectrum.color_space import srgb_of
from pourwright.spectrum.light import xyz_of
from pourwright.spectrum.patches import COLUMNS, PATCH_REFLECTANCE

_PITCH, _GAP, _MARGIN = 14, 2, 16
_CARD, _PUCK, _FRAME = (205, 205, 205), (150, 88, 58), (30, 30, 30)
# The lightest patch stays clear of a channel's end.
_EXPOSURE = 0.85


def _drawn() -> NDArray[np.uint8]:
    codes = np.full((88, 148, 3), _CARD, dtype=np.uint8)
    codes[_MARGIN - 4 : _MARGIN + 4 * _PITCH + 2, _MARGIN - 4 : _MARGIN + 6 * _PITCH + 2] = _FRAME
    for i, reflectance in enumerate(PATCH_REFLECTANCE):
        down, right = (_MARGIN + _PITCH * k for k in divmod(i, COLUMNS))
        shown, _ = srgb_of(_EXPOSURE * xyz_of(reflectance))
        codes[down : down + _PITCH - _GAP, right : right + _PITCH - _GAP] = np.round(255 * shown)
    down, right = np.mgrid[: codes.shape[0], : codes.shape[1]]
    codes[np.hypot(down - 44, right - 126) < 14] = _PUCK
    return codes


def png(codes: NDArray[np.uint8]) -> bytes:
    """A picture as a PNG file (ISO/IEC 15948:2004)."""
    height, width, _ = codes.shape
    lines = b"".join(b"\x00" + line.tobytes() for line in codes)
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    chunks = ((b"IHDR", head), (b"IDAT", zlib.compress(lines, 9)), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))
        for name, body in chunks
    )


def _point(right: float, down: float) -> dict[str, float]:
    return {"x_px": right, "y_px": down}


_LEFT, _RIGHT = _MARGIN, _MARGIN + COLUMNS * _PITCH - _GAP
_LOW = _MARGIN + 4 * _PITCH - _GAP

EXAMPLE: dict[str, Any] = {
    "photo": base64.b64encode(png(_drawn())).decode(),
    "target": {"kind": "24 patches"},
    "corners": [
        _point(_LEFT, _MARGIN), _point(_RIGHT, _MARGIN), _point(_RIGHT, _LOW), _point(_LEFT, _LOW)
    ],
    "spots": [{"name": "invented pumpkin puck", "x_px": 126, "y_px": 44, "radius_px": 8}],
    "card": [
        {**_point(right, down), "radius_px": 4} for right, down in ((126, 12), (126, 78), (60, 6))
    ],
}  # fmt: skip
