"""A supplier's paper as a file: kept as it was given, under its SHA-256."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass

from pourwright.base.errors import BadInput

FIELD = "paper"
MOST_BYTES = 8_000_000
PDF = "application/pdf"
# How such files begin: ISO 32000-2 section 7.5.2, ISO/IEC 10918-1 Annex B, ISO/IEC 15948 5.2.
BEGINS = {PDF: b"%PDF-", "image/jpeg": b"\xff\xd8\xff", "image/png": b"\x89PNG\r\n\x1a\n"}
ENDINGS = {PDF: "pdf", "image/jpeg": "jpg", "image/png": "png"}


@dataclass(frozen=True, slots=True)
class PaperFile:
    """The file; its id is the SHA-256 of its content, in hex."""

    id: str
    media_type: str
    content: bytes


def paper_file(content: bytes) -> PaperFile:
    """The file that so many bytes are, told by how they begin.

    Raises: BadInput for an empty or a big file, and for anything but a PDF, JPEG or PNG.

    >>> paper_file(b"%PDF-1.7 ...").media_type
    'application/pdf'
    """
    if not content:
        raise BadInput(FIELD, None, "choose a file first; an empty one says nothing")
    if len(content) > MOST_BYTES:
        raise BadInput(FIELD, len(content), f"must be at most {MOST_BYTES:,} bytes")
    kinds = [kind for kind, begins in BEGINS.items() if content.startswith(begins)]
    if not kinds:
        raise BadInput(FIELD, f"{len(content)} bytes", "must be a PDF, a JPEG or a PNG file")
    return PaperFile(hashlib.sha256(content).hexdigest(), kinds[0], content)
