"""What a reader of codes finds in a part of a printed page."""

from __future__ import annotations

import pypdfium2 as pdfium
import zxingcpp
from PIL import Image

MM_PER_INCH = 25.4
# What rolls of labels are printed with, and what a home printer does at least: dots per inch.
PRINTERS = (203, 300)
Box = tuple[float, float, float, float]


def printed(pdf: bytes, dpi: int, page: int = 0) -> Image.Image:
    """A page as a printer of that fineness puts it down."""
    image: Image.Image = pdfium.PdfDocument(pdf)[page].render(scale=dpi / 72).to_pil()
    return image


def codes_in(image: Image.Image, box_mm: Box, dpi: int) -> list[tuple[str, str]]:
    """Kind and text of each code within left, top, width and height in mm."""
    left, top, wide, high = (side * dpi / MM_PER_INCH for side in box_mm)
    part = image.crop((round(left), round(top), round(left + wide), round(top + high)))
    return all_codes(part)


def all_codes(image: Image.Image) -> list[tuple[str, str]]:
    """Kind and text of each code of a picture, in order."""
    return sorted((str(it.format), it.text) for it in zxingcpp.read_barcodes(image))
