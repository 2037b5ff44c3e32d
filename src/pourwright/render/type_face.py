"""The vendored type of the house, measured and set the same on every machine."""

from __future__ import annotations

import functools
import importlib.resources
import io

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

REGULAR = "Pourwright"
BOLD = "Pourwright-Bold"
_FOLDER = "web/static/type"
_FILES = {REGULAR: "regular.ttf", BOLD: "bold.ttf"}


@functools.cache
def set_up_type() -> None:
    """Make both weights known to the PDF library, once a process."""
    for name, file in _FILES.items():
        data = importlib.resources.files("pourwright").joinpath(_FOLDER, file).read_bytes()
        pdfmetrics.registerFont(TTFont(name, io.BytesIO(data)))


@functools.lru_cache(maxsize=8192)
def width_of(words: str, size: float, *, bold: bool = False) -> float:
    """Width of a line in points."""
    set_up_type()
    width: float = pdfmetrics.stringWidth(words, BOLD if bold else REGULAR, size)
    return width
