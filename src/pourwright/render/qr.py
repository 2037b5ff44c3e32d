"""QR codes: a matrix for paper, a drawing for the screen."""

from __future__ import annotations

import segno

# Light modules that a reader needs around the code: ISO/IEC 18004:2015, section 6.3.8.
QUIET_MODULES = 4

Matrix = tuple[tuple[bool, ...], ...]


def qr_matrix(text: str) -> Matrix:
    """Dark and light modules without the quiet border; 21 modules wide or more."""
    return tuple(tuple(bool(module) for module in row) for row in _made(text).matrix)


def qr_svg(text: str, *, title: str) -> str:
    """The code as SVG to put into a page: black on white in any light, sized by the page."""
    drawn: str = _made(text).svg_inline(
        border=QUIET_MODULES, dark="#000", light="#fff", title=title, omitsize=True
    )
    return drawn


def _made(text: str) -> segno.QRCode:
    return segno.make(text, micro=False, error="m")
