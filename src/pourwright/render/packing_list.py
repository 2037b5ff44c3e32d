"""The packing list of a parcel, on as many pages as it needs."""

from __future__ import annotations

import io
from collections.abc import Iterator

from reportlab.pdfgen.canvas import Canvas

from pourwright.actions.packing_page import PackingLine, PackingList
from pourwright.render.pen import HAIR, THICK, Pen
from pourwright.render.sheet_pdf import MARGIN, SIZES
from pourwright.render.text import wrapped
from pourwright.shop.workplace import Paper

INVENTED = "Invented demo data"
_ROW, _LOT_ROW = 26.0, 13.0
_HEAD, _FOOT = 150.0, 40.0
_BOX = 14.0


def packing_list_pdf(found: PackingList, *, paper: Paper) -> bytes:
    """Pages in PDF; the same list gives the same bytes."""
    wide, tall = SIZES[paper]
    width, room = wide - 2 * MARGIN, tall - 2 * MARGIN
    buffer = io.BytesIO()
    canvas = Canvas(buffer, pagesize=(wide, tall), invariant=1)
    canvas.setTitle(f"Packing list: {found.customer}")
    canvas.setAuthor("Pourwright")
    pages = list(_pages(found.lines, room - _HEAD - _FOOT))
    for number, lines in enumerate(pages, start=1):
        pen = Pen(canvas, MARGIN, tall - MARGIN)
        _head(pen, found, width)
        _rows(pen, lines, width)
        foot = f"Page {number} of {len(pages)}. {found.packs} packs in all."
        pen.words(0, room - 12, foot, 9, width=width)
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _pages(lines: tuple[PackingLine, ...], room: float) -> Iterator[list[PackingLine]]:
    """Lines that fit on one page after the other; at least one a page."""
    page: list[PackingLine] = []
    left = room
    for line in lines:
        if page and _height(line) > left:
            yield page
            page, left = [], room
        page.append(line)
        left -= _height(line)
    yield page


def _height(line: PackingLine) -> float:
    return _ROW + _LOT_ROW * (len(line.lots) + bool(line.missing) + bool(line.sent)) + 8


def _head(pen: Pen, found: PackingList, width: float) -> None:
    pen.words(0, 0, "Packing list", 20, bold=True)
    if found.demo:
        pen.words(width, 4, INVENTED, 10, bold=True, align="right")
    pen.words(0, 32, found.customer, 14, bold=True, width=width)
    address = [it for part in found.ship_to.splitlines() for it in wrapped(part, width, 11, most=2)]
    for i, words in enumerate(address[:4]):
        pen.words(0, 52 + 14 * i, words, 11, width=width)
    due = f", due {found.due_on}" if found.due_on else ""
    pen.words(0, 116, f"Ordered {found.taken_on}{due}", 10, width=width)
    pen.rule(0, _HEAD - 14, width, THICK)


def _rows(pen: Pen, lines: list[PackingLine], width: float) -> None:
    y = _HEAD
    for line in lines:
        pen.box(0, y, _BOX, _BOX)
        if line.picked:
            pen.words(_BOX / 2, y + 1, "x", 12, bold=True, align="middle")
        each = f" of {line.baits_each}" if line.baits_each > 1 else ""
        pen.words(26, y, f"{line.packs} x", 13, bold=True)
        name = f"{line.bait}, {line.look}"
        pen.words(70, y, name, 12, width=width - 170)
        pen.words(width, y, f"packs{each}", 12, align="right")
        below = y + 16
        for lot in line.lots:
            pen.words(70, below, f"{lot.packs} from lot {lot.lot}", 10)
            below += _LOT_ROW
        if line.missing:
            pen.words(70, below, f"{line.missing} not set aside yet", 10, bold=True)
            below += _LOT_ROW
        if line.sent:
            pen.words(70, below, f"{line.sent} sent before", 10)
        y += _height(line)
        pen.rule(0, y - 8, width, HAIR)
