"""What stands on a printed page, as a PDF library of its own finds it."""

from __future__ import annotations

import functools

import numpy as np
import pypdfium2 as pdfium


def page_of(pdf: bytes) -> pdfium.PdfPage:
    """The page of a file that holds one."""
    document = pdfium.PdfDocument(pdf)
    assert len(document) == 1
    return document[0]


def words_of(pdf: bytes) -> str:
    """Its words in their order, single spaces between them."""
    return " ".join(page_of(pdf).get_textpage().get_text_range().split())


@functools.cache
def boxes_of(pdf: bytes) -> tuple[np.ndarray, tuple[str, ...]]:
    """Tight boxes of all characters that leave ink: left, bottom, right, top."""
    text = page_of(pdf).get_textpage()
    letters = text.get_text_range()
    count = text.count_chars()
    if len(letters) != count:  # characters outside the first plane, or folded line ends
        letters = "".join(text.get_text_range(i, 1) or " " for i in range(count))
    inked = [i for i in range(count) if letters[i].strip()]
    return np.array([text.get_charbox(i) for i in inked]), tuple(letters[i] for i in inked)


def pictures_of(pdf: bytes) -> list[tuple[float, ...]]:
    """Boxes of its pictures: left, bottom, right, top."""
    kind = pdfium.raw.FPDF_PAGEOBJ_IMAGE
    return [tuple(it.get_bounds()) for it in page_of(pdf).get_objects(filter=[kind])]


def on_top(pdf: bytes) -> list[tuple[str, str]]:
    """Pairs of letters that lie on one another by more than a third of the smaller one."""
    boxes, letters = boxes_of(pdf)
    left, bottom, right, top = boxes.astype(np.float32).T
    across = np.minimum.outer(right, right) - np.maximum.outer(left, left)
    along = np.minimum.outer(top, top) - np.maximum.outer(bottom, bottom)
    shared = np.clip(across, 0, None) * np.clip(along, 0, None)
    area = (right - left) * (top - bottom)
    found = shared > 0.35 * np.minimum.outer(area, area)
    np.fill_diagonal(found, val=False)
    return [(letters[i], letters[j]) for i, j in np.argwhere(found)]
