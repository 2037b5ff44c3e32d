"""The package around a 3MF model: its directory is looked at before anything is unpacked."""

from __future__ import annotations

import io
import stat
import struct
import zipfile
import zlib
from collections import Counter
from collections.abc import Iterator, Mapping

from pourwright.intake.mesh_soup import refused
from pourwright.intake.xml_stream import read_elements

MOST_MEMBERS = 1000
MOST_UNPACKED = 120_000_000
# Text packs ten to thirty times; from a megabyte on, more than this is a trap.
MOST_RATIO, RATIO_FROM = 100, 1_000_000
MOST_LINKS = 100_000
CHUNK = 1 << 16
LINKS = "_rels/.rels"
# 3MF Core Specification 1.3 (2021), section 2.1.1 and appendix C: the package's way to its model.
LINK_SPACE = "http://schemas.openxmlformats.org/package/2006/relationships"
MODEL_LINK = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"
_DIRECTORY_ENTRY = b"PK\x01\x02"
_BROKEN = (
    zipfile.BadZipFile, zlib.error, struct.error, EOFError, OSError, NotImplementedError,
    ValueError,
)  # fmt: skip


def model_chunks(data: bytes) -> Iterator[bytes]:
    """The model part of a package, piece by piece. Raises: BadInput for a package that is off."""
    if data.count(_DIRECTORY_ENTRY) > MOST_MEMBERS:
        raise refused("a 3MF file", f"has more than {MOST_MEMBERS} parts")
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as package:
            members = package.infolist()
            _check(members)
            name = _model_name(package)
            with package.open(name) as part:
                while piece := part.read(CHUNK):
                    yield piece
    except _BROKEN as error:
        raise refused(f"{len(data):,} bytes", "is a damaged 3MF file") from error


def _check(members: list[zipfile.ZipInfo]) -> None:
    """Refuse a directory that promises too much, hides something or leads elsewhere."""
    if sum(m.file_size for m in members) > MOST_UNPACKED:
        unpacked = f"{sum(m.file_size for m in members) / 1e6:,.0f} MB unpacked"
        raise refused(unpacked, f"must unpack to at most {MOST_UNPACKED / 1e6:.0f} MB")
    twice = [name for name, n in Counter(m.filename.lower() for m in members).items() if n > 1]
    if twice:
        raise refused(twice[0], "is in the 3MF file twice")
    for member in members:
        why = _wrong(member)
        if why:
            raise refused(member.filename[:60], why)


def _wrong(member: zipfile.ZipInfo) -> str:
    steps = member.filename.replace("\\", "/").split("/")
    if member.filename.startswith(("/", "\\")) or ".." in steps or ":" in steps[0]:
        return "leads out of the 3MF file"
    if member.flag_bits & 0x1:
        return "is encrypted"
    if stat.S_ISLNK(member.external_attr >> 16):
        return "is a link, not a part"
    if member.compress_type not in {zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED}:
        return "is packed in a way that 3MF does not know"
    if member.file_size > max(RATIO_FROM, MOST_RATIO * member.compress_size):
        return f"unpacks to more than {MOST_RATIO} times its size"
    return ""


def _model_name(package: zipfile.ZipFile) -> str:
    """The one model that the package's own links name."""
    if LINKS not in package.namelist():
        raise refused("a zip file", "is no 3MF file: it does not say which part is the model")
    with package.open(LINKS) as part:
        text = part.read(MOST_LINKS + 1)
    if len(text) > MOST_LINKS:
        raise refused(LINKS, "is too long")
    named: list[str] = []

    def link(name: str, said: Mapping[str, str]) -> None:
        own = said.get("TargetMode", "Internal") == "Internal"
        if name == f"{LINK_SPACE} Relationship" and said.get("Type") == MODEL_LINK and own:
            named.append(said.get("Target", "").lstrip("/"))

    read_elements([text], LINKS, link)
    if len(named) != 1 or named[0] not in package.namelist():
        raise refused(", ".join(named)[:60] or "no model", "must be one model part in the 3MF file")
    return named[0]
