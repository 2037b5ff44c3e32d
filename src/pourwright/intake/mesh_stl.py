"""STL, binary and text: loose triangles without a unit."""

from __future__ import annotations

import re
import struct

import numpy as np

from pourwright.intake.mesh_soup import Soup, check_count, refused

HEAD, ROW = 84, 50
_ROW = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])
_POINT = rb"\s+vertex\s+(\S+)\s+(\S+)\s+(\S+)"
_FACET = re.compile(
    rb"\s*facet\s+normal\s+\S+\s+\S+\s+\S+\s+outer\s+loop" + 3 * _POINT + rb"\s+endloop\s+endfacet",
    re.IGNORECASE,
)
_END = re.compile(rb"endfacet", re.IGNORECASE)
_OPENING = re.compile(rb"\s*solid[^\n\r]*", re.IGNORECASE)
_CLOSING = re.compile(rb"\s*endsolid[^\n\r]*", re.IGNORECASE)


def promised(data: bytes) -> int:
    """The number of triangles a binary file says it has. Raises: BadInput if it is too short."""
    if len(data) < HEAD:
        raise refused(f"{len(data)} bytes", "is cut short")
    return int(struct.unpack_from("<I", data, HEAD - 4)[0])


def fits(data: bytes) -> bool:
    """Whether the file is as long as a binary STL of the promised triangles is."""
    return len(data) >= HEAD and len(data) == HEAD + ROW * promised(data)


def binary(data: bytes) -> Soup:
    """Triangles of a binary file. Raises: BadInput where its header lies about its length."""
    count = promised(data)
    if not fits(data):
        held = (len(data) - HEAD) / ROW
        why = f"says {count:,} triangles but holds {held:,.1f}: it was cut short, or is no STL"
        raise refused(f"{len(data):,} bytes", why)
    check_count(count)
    rows = np.frombuffer(data, _ROW, count=count, offset=HEAD)
    return _loose(rows["corners"].reshape(-1, 3).astype(float))


def text(data: bytes) -> Soup:
    """Triangles of a text file, one or several solids. Raises: BadInput naming what is off."""
    count = sum(1 for _ in _END.finditer(data))
    check_count(count)
    corners = np.zeros((count, 9))
    found, place, end = 0, 0, len(data.rstrip())
    while place < end:
        match = _FACET.match(data, place)
        if match:
            corners[found] = _numbers(match.groups(), found)
            found += 1
        else:
            match = _CLOSING.match(data, place) or _OPENING.match(data, place)
        if match is None:
            line = data.count(b"\n", 0, place) + 1
            what = data[place : place + 40].strip().decode("utf-8", "replace")
            raise refused(what, f"is no STL after line {line}")
        place = match.end()
    return _loose(corners[:found].reshape(-1, 3))


def _numbers(words: tuple[bytes, ...], facet: int) -> list[float]:
    try:
        return [float(word) for word in words]
    except ValueError:
        what = b" ".join(words)[:60].decode("utf-8", "replace")
        raise refused(what, f"is no triangle (number {facet + 1})") from None


def _loose(corners: np.ndarray[tuple[int, ...], np.dtype[np.float64]]) -> Soup:
    return Soup(corners, np.arange(len(corners)).reshape(-1, 3))
