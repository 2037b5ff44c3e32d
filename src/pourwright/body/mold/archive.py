"""A zip archive in memory, the same bytes for the same members.

Source: PKWARE, .ZIP File Format Specification, 4.3.7 local header, 4.3.12 central directory
header, 4.3.16 end of central directory.
"""

from __future__ import annotations

import struct
import zlib
from collections.abc import Mapping

_LOCAL, _CENTRAL, _END = b"PK\x03\x04", b"PK\x01\x02", b"PK\x05\x06"
_NEEDS, _DEFLATED = 20, 8
# The first day the format knows: 1 January 1980, midnight.
_TIME, _DATE = 0, 0x21
_LOCAL_LONG = 30


def zipped(members: Mapping[str, bytes]) -> bytes:
    """An archive of some members, deflated, in the order given."""
    body, directory = b"", b""
    for name, data in members.items():
        packed, label = _deflated(data), name.encode("ascii")
        facts = struct.pack(
            "<HHHHHIIIHH", _NEEDS, 0, _DEFLATED, _TIME, _DATE, zlib.crc32(data),
            len(packed), len(data), len(label), 0,
        )  # fmt: skip
        made_by = struct.pack("<H", _NEEDS)
        tail = struct.pack("<HHHII", 0, 0, 0, 0, len(body))
        directory += _CENTRAL + made_by + facts + tail + label
        body += _LOCAL + facts + label + packed
    counts = struct.pack("<HHHHIIH", 0, 0, len(members), len(members), len(directory), len(body), 0)
    return body + directory + _END + counts


def member(archive: bytes, name: str) -> bytes:
    """One member of an archive that `zipped` made. Raises: KeyError if it is not there."""
    at = 0
    while archive[at : at + 4] == _LOCAL:
        packed, label, extra = struct.unpack_from("<I4xHH", archive, at + 18)
        start = at + _LOCAL_LONG + label + extra
        if archive[at + _LOCAL_LONG : at + _LOCAL_LONG + label] == name.encode("ascii"):
            return zlib.decompress(archive[start : start + packed], wbits=-15)
        at = start + packed
    raise KeyError(name)


def _deflated(data: bytes) -> bytes:
    packer = zlib.compressobj(level=6, wbits=-15)
    return packer.compress(data) + packer.flush()
