"""Which sort of mesh a file holds, told by what is in it and not by its name."""

from __future__ import annotations

import codecs

from pourwright.intake import mesh_obj, mesh_stl
from pourwright.intake.mesh_3mf import threemf
from pourwright.intake.mesh_soup import Soup, check_size, checked, refused

_ZIP = (b"PK\x03\x04", b"PK\x05\x06")
_HEAD = 1024


def soup(data: bytes) -> Soup:
    """The triangles of an STL, 3MF or OBJ file. Raises: BadInput naming what is off."""
    check_size(data)
    return checked(_read(data))


def _read(data: bytes) -> Soup:
    if data.startswith(_ZIP):
        return threemf(data)
    if mesh_stl.fits(data) or b"\0" in data[:_HEAD]:
        return mesh_stl.binary(data)
    text = data.removeprefix(codecs.BOM_UTF8)
    if text.lstrip()[:5].lower() == b"solid":
        return mesh_stl.text(text)
    if mesh_obj.looks_like(text):
        return mesh_obj.obj(text)
    raise refused(f"{len(data):,} bytes", "is neither an STL, a 3MF nor an OBJ file")
