"""A picture that was reckoned, on its way to a screen or to paper."""

from __future__ import annotations

import struct
import zlib
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

_SIGNATURE = b"\x89PNG\r\n\x1a\n"
# Fast, and within a few percent of the smallest.
_EFFORT = 6
_EIGHT_BIT, _TRUE_COLOR = 8, 2


@dataclass(frozen=True, slots=True, eq=False)
class Pixels:
    """Codes of an sRGB screen, 0 to 255, shape (rows, columns, 3), from the top left."""

    codes: NDArray[np.uint8]

    def __post_init__(self) -> None:
        if self.codes.ndim != 3 or self.codes.shape[2] != 3 or self.codes.dtype != np.uint8:
            raise ValueError(f"a picture has rows of three bytes, not {self.codes.shape}")

    @property
    def rows(self) -> int:
        """Pixels from top to bottom."""
        return int(self.codes.shape[0])

    @property
    def columns(self) -> int:
        """Pixels from left to right."""
        return int(self.codes.shape[1])

    def png(self) -> bytes:
        """The picture as a PNG file (ISO/IEC 15948:2004), marked as sRGB."""
        head = struct.pack(">IIBBBBB", self.columns, self.rows, _EIGHT_BIT, _TRUE_COLOR, 0, 0, 0)
        plain = np.ascontiguousarray(self.codes).reshape(self.rows, -1)
        # Each row as what it differs by from the row above, which presses smaller (filter "up").
        rises = np.diff(plain, axis=0, prepend=np.zeros((1, plain.shape[1]), np.uint8))
        lines = np.concatenate([np.full((self.rows, 1), 2, np.uint8), rises], axis=1)
        chunks = (
            (b"IHDR", head),
            (b"sRGB", b"\x00"),
            (b"IDAT", zlib.compress(lines.tobytes(), _EFFORT)),
            (b"IEND", b""),
        )
        return _SIGNATURE + b"".join(_chunk(name, data) for name, data in chunks)


def _chunk(name: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))
