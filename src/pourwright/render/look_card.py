"""The color card of a look as one printed page."""

from __future__ import annotations

import io
import itertools
from dataclasses import dataclass

from reportlab.pdfgen.canvas import Canvas

from pourwright.actions.look_card import LookCard
from pourwright.base.units import System
from pourwright.base.wording import percent, words_of
from pourwright.body.split import Line, Split
from pourwright.render.card_layer import card_layer
from pourwright.render.caution import cautions
from pourwright.render.pen import THICK, Pen
from pourwright.render.piece import Piece, cut, gap, heading, paragraph, stacked
from pourwright.render.qr import QUIET_MODULES, qr_matrix
from pourwright.render.sheet_pdf import MARGIN, SIZES
from pourwright.render.style import STYLES, Style
from pourwright.render.type_face import width_of
from pourwright.shop.workplace import Paper

INVENTED = "Invented demo data"
# Of the width of the page; a picture is two fifths as tall as it is wide.
_WIDTHS = (1.0, 0.75, 0.5)
_CODE_WIDTH = 50.0
_FOOT = 20.0
_JOINT = "  ·  "
_OF_HEIGHT = "of the bait's height"


@dataclass(frozen=True, slots=True)
class _Page:
    """A card and how it is read."""

    card: LookCard
    system: System
    width: float
    height: float


def look_card(card: LookCard, *, system: System, paper: Paper) -> bytes:
    """One page in PDF; the same card gives the same bytes.

    Whatever does not fit is counted on the page as rows to see on the screen.
    """
    wide, tall = SIZES[paper]
    page = _Page(card, system, wide - 2 * MARGIN, tall - 2 * MARGIN)
    buffer = io.BytesIO()
    canvas = Canvas(buffer, pagesize=(wide, tall), invariant=1)
    canvas.setTitle(f"Color card: {card.name}, version {card.version}")
    canvas.setAuthor("Pourwright")
    pen = Pen(canvas, MARGIN, tall - MARGIN)
    body, style = _laid_out(page)
    body.draw(pen, 0, 0)
    pen.words(0, page.height - style.small, _foot(card), style.small, width=page.width)
    canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _laid_out(page: _Page) -> tuple[Piece, Style]:
    """The largest picture and the roomiest style in which all fits, else the tightest, cut."""
    for style, share in itertools.product(STYLES, _WIDTHS):
        whole = stacked((_top(page, style, share), *_layers(page, style), _care(page, style)))
        if whole.height + _FOOT <= page.height:
            return whole, style
    style = STYLES[-1]
    top, layers, care = _top(page, style, _WIDTHS[-1]), _layers(page, style), _care(page, style)
    room = page.height - top.height - care.height - _FOOT
    return stacked((top, *cut(layers, room, page.width, style), care)), style


def _top(page: _Page, style: Style, share: float) -> Piece:
    """All that stands over the recipes."""
    card, width, space = page.card, page.width, gap(style.gap)
    pieces = [
        _head(card, width, style), space, _picture(card, width, share, style), space,
        heading("Recipe for 100 g of plastic", _swatches(page), width, style),
    ]  # fmt: skip
    lines = _lines(card.split, page.system)
    if lines:
        pieces.append(paragraph(_JOINT.join(lines), width, style, most=2))
    return stacked(pieces)


def _care(page: _Page, style: Style) -> Piece:
    return stacked((gap(style.gap), cautions(page.width, style)))


def _layers(page: _Page, style: Style) -> tuple[Piece, ...]:
    return tuple(
        piece
        for layer in page.card.layers
        for piece in (*card_layer(layer, page.system, width=page.width, style=style),
                      gap(style.gap / 2))
    )  # fmt: skip


def _head(card: LookCard, width: float, style: Style) -> Piece:
    """Name, version and day; the lot with its code where there is one."""
    matrix = qr_matrix(card.lot.code) if card.lot else None
    quiet = QUIET_MODULES * _CODE_WIDTH / len(matrix) if matrix else 0.0
    room = width - _CODE_WIDTH - quiet if matrix else width

    def draw(pen: Pen, x: float, y: float) -> None:
        pen.words(x, y - 1, card.name, 17, bold=True, width=room)
        pen.words(x, y + 20, _version(card), 10, width=room)
        pen.words(x, y + 33, _poured_in(card), 8.5, width=room)
        if card.demo:
            long = width_of(INVENTED, 9, bold=True) + 8
            pen.box(x, y + 44, long, 12, THICK)
            pen.words(x + 4, y + 45.5, INVENTED, 9, bold=True)
        if matrix:
            pen.code(x + width - _CODE_WIDTH, y, _CODE_WIDTH, matrix)

    top = Piece(60 if matrix or card.demo else 46, draw)
    return stacked((top, paragraph(card.note, width, style, most=2))) if card.note else top


def _version(card: LookCard) -> str:
    words = f"Color card, version {card.version} of {card.saved_at[:10]}"
    if card.lot is None:
        return words
    return f"{words}{_JOINT}lot {card.lot.code}, frozen {card.lot.frozen_at[:10]}"


def _poured_in(card: LookCard) -> str:
    named = (("Bait", card.bait), ("Plastic", card.plastic))
    return _JOINT.join(f"{label}: {name}" for label, name in named if name)


def _picture(card: LookCard, width: float, share: float, style: Style) -> Piece:
    """The picture with what it shows, or why there is none."""
    if card.picture is None:
        why = card.no_picture or "none was asked for"
        return paragraph(f"No picture: {why}.", width, style)
    wide = width * share
    pixels = card.picture
    shown = "On a white card, its flank, in daylight. Typical values: a first look, no promise."
    under = paragraph(shown, width, style)

    def draw(pen: Pen, x: float, y: float) -> None:
        pen.picture(x, y, wide, pixels)

    return stacked((Piece(wide * pixels.rows / pixels.columns + 3, draw), under))


def _swatches(page: _Page) -> str:
    thick = words_of(page.card.thick_mm, "mm", page.system).middle
    place = ", as the thickest place is" if page.card.thick_known else ""
    return f"Swatches over white and over dark, {thick} thick{place}"


def _lines(split: Split, system: System) -> tuple[str, ...]:
    """Where the layers part, as far as it was told."""
    told = [
        "" if split.line is Line.STRAIGHT else f"Line {split.line.value}",
        _share("Back above", split.line_height, _OF_HEIGHT),
        _share("Belly up to", split.belly_height, _OF_HEIGHT),
        _share("Middle of the vein at", split.vein_height, _OF_HEIGHT),
        _length("Swing of the line", split.wave_mm, system),
        _length("Vein", split.vein_thick_mm, system, "high"),
        _length("Vein", split.vein_wide_mm, system, "wide"),
        _share("Core", split.core_share, "of the bait's thickness"),
    ]
    return tuple(filter(None, told))


def _share(what: str, share: float | None, of: str) -> str:
    return "" if share is None else f"{what} {percent(share)} {of}"


def _length(what: str, length_mm: float | None, system: System, how: str = "") -> str:
    if length_mm is None:
        return ""
    return f"{what} {words_of(length_mm, 'mm', system).middle} {how}".rstrip()


def _foot(card: LookCard) -> str:
    return (
        "L*a*b* in daylight, poured on white; ranges hold nine times in ten. "
        f"Printed {card.printed_at[:10]}."
    )
