"""The tax sheet of a quarter on as many printed pages as its lines take."""

from __future__ import annotations

import io
from collections.abc import Iterable, Sequence

from reportlab.pdfgen.canvas import Canvas

from pourwright.base.wording import grouped, percent
from pourwright.render.excise_row import head_row, line_row, total_row
from pourwright.render.pen import THICK, Pen
from pourwright.render.piece import Piece, entry, gap, heading, paragraph
from pourwright.render.sheet_pdf import MARGIN, SIZES
from pourwright.render.style import Style
from pourwright.shop.tax.caution import TaxCaution
from pourwright.shop.tax.excise import ExciseAnswer
from pourwright.shop.workplace import Paper

STYLE = Style(size=9.0, row=12.5, gap=9.0, columns=2, compact=False, grid_row=19.0)
_FOOT = 14.0
_INSET = 6.0
_DOT, _LEAD = 10.0, 34.0


def excise_sheet(
    answer: ExciseAnswer, *, of: str, asides: Sequence[str], paper: Paper, sign: str
) -> bytes:
    """The sheet in PDF; same in, same bytes.

    `of` says whose books it comes from and of which day; `asides` are sales taken back. No line is
    left out: it runs on to further pages.
    """
    wide, tall = SIZES[paper]
    width, room = wide - 2 * MARGIN, tall - 2 * MARGIN - _FOOT
    pages = _pages(_flow(answer, of, asides, width, sign), room)
    buffer = io.BytesIO()
    canvas = Canvas(buffer, pagesize=(wide, tall), invariant=1)
    canvas.setTitle(f"Tax sheet {answer.quarter}, {of}")
    canvas.setAuthor("Pourwright")
    for number, page in enumerate(pages, start=1):
        pen, y = Pen(canvas, MARGIN, tall - MARGIN), 0.0
        for piece in page:
            piece.draw(pen, 0, y)
            y += piece.height
        foot = f"Tax sheet {answer.quarter}, {of}. Page {number} of {len(pages)}. Not tax advice."
        pen.words(0, room + _FOOT - STYLE.small, foot, STYLE.small, width=width)
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


# A piece, and what stands above it once more where it begins a page.
_Flow = Iterable[tuple[Piece, Piece | None]]


def _pages(flow: _Flow, room: float) -> list[list[Piece]]:
    pages: list[list[Piece]] = [[]]
    left = room
    for piece, again in flow:
        if piece.height > left and pages[-1]:
            pages.append([again] if again else [])
            left = room - (again.height if again else 0)
        pages[-1].append(piece)
        left -= piece.height
    return pages


def _flow(answer: ExciseAnswer, of: str, asides: Sequence[str], width: float, sign: str) -> _Flow:
    head = head_row(width, STYLE)
    yield _title(answer, of, width, sign), None
    yield _boxed(answer.not_advice, width), None
    yield gap(STYLE.gap), None
    yield (
        heading("Line by line", "tax not rounded; the quarter is rounded once", width, STYLE),
        None,
    )
    yield head, None
    for line in answer.lines:
        yield line_row(line, width, STYLE, sign), head
    yield total_row(answer, width, STYLE, sign), head
    for words in (*answer.notes, *asides):
        yield paragraph(words, width, STYLE), None
    for piece in _before_use(answer, width):
        yield piece, None


def _before_use(answer: ExciseAnswer, width: float) -> Iterable[Piece]:
    yield gap(STYLE.gap)
    yield heading("Before you use it", "with the place in the law", width, STYLE)
    for caution in answer.cautions:
        yield _caution(caution, width)
    yield gap(STYLE.gap)
    yield heading("For a licensed adviser alone", "", width, STYLE)
    for words in answer.ask_adviser:
        yield entry(("·", words), _DOT, width, STYLE)


def _title(answer: ExciseAnswer, of: str, width: float, sign: str) -> Piece:
    facts = (
        f"{answer.first_day} to {answer.last_day} · rate {percent(answer.rate)} · to "
        f"{answer.form_line} · due {answer.due_on}"
    )

    def draw(pen: Pen, x: float, y: float) -> None:
        total = f"{sign}{grouped(answer.tax_money, 2)}"
        pen.words(x, y, f"Tax sheet {answer.quarter}: sport fishing equipment", 15, bold=True)
        pen.words(x + width, y, total, 15, bold=True, align="right")
        pen.words(x, y + 20, of, STYLE.size, width=width)
        pen.words(x, y + 33, facts, STYLE.size, width=width)

    return Piece(52, draw)


def _boxed(words: str, width: float) -> Piece:
    inside = paragraph(words, width - 2 * _INSET, STYLE)

    def draw(pen: Pen, x: float, y: float) -> None:
        pen.box(x, y, width, inside.height + 2 * _INSET, THICK)
        inside.draw(pen, x + _INSET, y + _INSET)

    return Piece(inside.height + 2 * _INSET, draw)


def _caution(caution: TaxCaution, width: float) -> Piece:
    lead = "Ask" if caution.ask else "Know"
    words = f"{caution.words} [{caution.source}]"
    return entry((lead, words), _LEAD, width, STYLE)
