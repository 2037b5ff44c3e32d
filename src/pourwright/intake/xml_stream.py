"""XML read as a stream, without document types: nothing can be declared, so nothing can expand."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from xml.parsers import expat

from pourwright.intake.mesh_soup import refused

Start = Callable[[str, Mapping[str, str]], None]
"""Told of each element: its name as "namespace name", and what it says."""
End = Callable[[str], None]


def read_elements(pieces: Iterable[bytes], what: str, start: Start, end: End | None = None) -> None:
    """Tell of each element as it begins, and as it ends.

    A document type is refused as soon as it begins, and with it every entity, since only there
    could one be declared.
    Source: World Wide Web Consortium, Extensible Markup Language 1.0, 5th edition, section 4.2.
    Raises: BadInput for anything but sound XML without a document type.
    """
    parser = expat.ParserCreate(namespace_separator=" ")

    def no_type(*_: object) -> None:
        raise refused(what, "declares a document type or entities, which is not taken here")

    parser.StartDoctypeDeclHandler = no_type
    parser.StartElementHandler = start
    if end is not None:
        parser.EndElementHandler = end
    try:
        for piece in pieces:
            parser.Parse(piece, False)
        parser.Parse(b"", True)
    except (expat.ExpatError, LookupError, ValueError) as error:
        raise refused(what, f"is no sound XML: {error}") from error
