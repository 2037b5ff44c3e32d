"""Header cards to cut out, fold and staple over a bag."""

from __future__ import annotations

import io
from dataclasses import dataclass, replace
from typing import Any

from reportlab.pdfgen.canvas import Canvas

from pourwright.actions.header_card import HeaderCard
from pourwright.base.errors import NoAnswer
from pourwright.render.article import article_size, draw_article
from pourwright.render.barcode import POINTS_PER_MM
from pourwright.render.label import draw_label
from pourwright.render.pen import HAIR, Pen
from pourwright.render.sheet_pdf import SIZES
from pourwright.render.text import fitted
from pourwright.render.type_face import width_of
from pourwright.shop.header_card import CardShape, Hole
from pourwright.shop.label import INVENTED
from pourwright.shop.workplace import Paper

MM = POINTS_PER_MM
# What a home printer can reach, and the room for crop marks between cards.
_EDGE, _BETWEEN = 8 * MM, 8 * MM
_MARK, _OFF = 3 * MM, 1 * MM
# The middle of the hole below the fold, and where words may begin.
_HOLE_DOWN, _BELOW_HOLE, _BELOW_FOLD = 8 * MM, 13 * MM, 3 * MM
_PAD = 3 * MM
_NAME_SIZES = (20.0, 18.0, 16.0, 14.0, 12.0, 10.0, 9.0)
_GRAY = 0.45


@dataclass(frozen=True, slots=True)
class _Card:
    """A card in points: `high` is one of its two panels."""

    it: HeaderCard
    wide: float
    high: float
    hole: Hole

    @property
    def top(self) -> float:
        """Where words begin below the fold."""
        return _BELOW_FOLD if self.hole is Hole.NONE else _BELOW_HOLE


def header_card(card: HeaderCard, shape: CardShape, *, paper: Paper, count: int) -> bytes:
    """So many cards on as many sheets as they take; same in, same bytes.

    The front lies below the fold, the back above it and upside down, so that both stand upright
    once it is folded away from the reader. Raises: NoAnswer where the paper or the card is too
    small.
    """
    it = _Card(card, shape.wide_mm * MM, shape.folded_mm * MM, shape.hole)
    buffer = io.BytesIO()
    canvas = Canvas(buffer, pagesize=SIZES[paper], invariant=1)
    invented = f" ({INVENTED.lower()})" if card.label.demo else ""
    canvas.setTitle(f"Header card {card.label.code}{invented}")
    canvas.setAuthor("Pourwright")
    spots = _spots(it, SIZES[paper])
    for i in range(count):
        if i and i % len(spots) == 0:
            canvas.showPage()
        _draw(canvas, it, *spots[i % len(spots)])
    canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _spots(card: _Card, paper: tuple[float, float]) -> list[tuple[float, float]]:
    """Left end and height of the fold of each card that a sheet holds."""
    columns = int((paper[0] - 2 * _EDGE + _BETWEEN) // (card.wide + _BETWEEN))
    rows = int((paper[1] - 2 * _EDGE + _BETWEEN) // (2 * card.high + _BETWEEN))
    if columns < 1 or rows < 1:
        wide, high = ((side - 2 * _EDGE) / MM for side in paper)
        raise NoAnswer(
            f"a card of {card.wide / MM:.0f} mm by {2 * card.high / MM:.0f} mm unfolded does not "
            f"fit the paper, which takes {wide:.0f} by {high:.0f} mm"
        )
    left = (paper[0] - columns * (card.wide + _BETWEEN) + _BETWEEN) / 2
    return [
        (left + column * (card.wide + _BETWEEN),
         paper[1] - _EDGE - card.high - row * (2 * card.high + _BETWEEN))
        for row in range(rows)
        for column in range(columns)
    ]  # fmt: skip


def _draw(canvas: Any, card: _Card, left: float, fold: float) -> None:
    _marks(canvas, card, left, fold)
    _front(Pen(canvas, left, fold), card)
    canvas.saveState()
    canvas.translate(left + card.wide, fold + card.high)
    canvas.rotate(180)
    _back(Pen(canvas, 0, card.high), card)
    canvas.restoreState()


def _marks(canvas: Any, card: _Card, left: float, fold: float) -> None:
    """Crop marks off the corners, and a dashed line to fold along."""
    canvas.setStrokeGray(0)
    canvas.setLineWidth(HAIR)
    for x, outward in ((left, -1), (left + card.wide, 1)):
        for y, up in ((fold - card.high, -1), (fold + card.high, 1)):
            canvas.line(x + outward * _OFF, y, x + outward * (_OFF + _MARK), y)
            canvas.line(x, y + up * _OFF, x, y + up * (_OFF + _MARK))
    canvas.setStrokeGray(_GRAY)
    canvas.setDash(3, 2)
    canvas.line(left, fold, left + card.wide, fold)
    canvas.setDash()


def _hole(pen: Pen, card: _Card) -> None:
    """Its outline; both panels carry it, so that it can be cut folded or flat."""
    if card.hole is Hole.NONE:
        return
    half = 3 * MM
    long = 15 * MM if card.hole is Hole.SLOT else half
    x, y = pen.left + card.wide / 2 - long, pen.top - _HOLE_DOWN - half
    pen.canvas.setStrokeGray(_GRAY)
    pen.canvas.setLineWidth(HAIR)
    pen.canvas.roundRect(x, y, 2 * long, 2 * half, half)


def _front(pen: Pen, card: _Card) -> None:
    """Names and count over the look's picture."""
    _hole(pen, card)
    label, room, y = card.it.label, card.wide - 2 * _PAD, card.top
    size = next((s for s in _NAME_SIZES if width_of(label.bait, s, bold=True) <= room), 9.0)
    pen.words(card.wide / 2, y, fitted(label.bait, room, size, bold=True), size, bold=True,
              align="middle")  # fmt: skip
    y += size * 1.15
    under = f"{label.look} · {label.lines()[0]}"
    small = max(8.0, size * 0.6)
    pen.words(card.wide / 2, y, fitted(under, room, small), small, align="middle")
    y += small * 1.4
    _picture(pen, card, y, card.high - _PAD - y)


def _picture(pen: Pen, card: _Card, y: float, high: float) -> None:
    pixels = card.it.picture
    if pixels is None:
        words = fitted(f"No picture: {card.it.no_picture}", card.wide - 2 * _PAD, 7.5)
        pen.words(card.wide / 2, y, words, 7.5, align="middle")
        return
    wide = min(card.wide - 2 * _PAD, high * pixels.columns / pixels.rows)
    pen.picture((card.wide - wide) / 2, y, wide, pixels)


def _back(pen: Pen, card: _Card) -> None:
    """The label of the bag; the bars of an article number beside it where there is one."""
    _hole(pen, card)
    label, high = card.it.label, card.high - card.top
    wide = card.wide
    if label.article:
        taken, tall = article_size(label.article)
        if tall > high - _PAD:
            raise NoAnswer("the card is too low for the bars of an article number")
        wide -= taken
        draw_article(pen, wide, card.top + (high - tall) / 2, label.article)
    below = replace(pen, top=pen.top - card.top)
    draw_label(below, wide, high, label)
