"""Rows of the printed tax sheet."""

from __future__ import annotations

from collections.abc import Sequence

from pourwright.base.wording import grouped, percent
from pourwright.render.pen import HAIR, THIN, Align, Pen
from pourwright.render.piece import Piece, paragraph, stacked
from pourwright.render.style import Style
from pourwright.render.text import wrapped
from pourwright.shop.sale import TaxWay
from pourwright.shop.tax.excise import ExciseAnswer
from pourwright.shop.tax.line_tax import LineTax

# Head, share of the width, and which end of the column its words keep to.
_COLUMNS: tuple[tuple[str, float, Align], ...] = (
    ("Day", 0.11, "left"), ("What was sold", 0.31, "left"), ("Count", 0.08, "right"),
    ("Charged", 0.12, "right"), ("Delivery out", 0.12, "right"), ("Taxed on", 0.13, "right"),
    ("Tax", 0.13, "right"),
)  # fmt: skip
_NAME = 1
_AIR = 4.0
_WAYS = {TaxWay.INSIDE: "tax inside", TaxWay.ADDED: "tax on top"}


def head_row(width: float, style: Style) -> Piece:
    """The heads of the columns."""
    return _row([head for head, _, _ in _COLUMNS], width, style, bold=True)


def line_row(line: LineTax, width: float, style: Style, sign: str) -> Piece:
    """A line with its notes below it."""
    out = _money(line.excluded_money, sign) if line.excluded_money else ""
    cells = [
        line.sold_on, f"{line.name} ({_how(line)})", str(line.quantity),
        _money(line.charged_money, sign), out, _money(line.base_money, sign),
        _money(line.tax_money, sign, 4),
    ]  # fmt: skip
    return _row(cells, width, style, notes=line.notes)


def total_row(answer: ExciseAnswer, width: float, style: Style, sign: str) -> Piece:
    """The sums, and the quarter rounded."""
    cells = [
        "", f"Quarter, rounded once: {_money(answer.tax_money, sign)}", "", "", "",
        _money(answer.base_money, sign), _money(answer.exact_money, sign, 4),
    ]  # fmt: skip
    return _row(cells, width, style, bold=True)


def _how(line: LineTax) -> str:
    if line.free:
        return "free"
    share = f", {percent(line.base_share)} of the price" if line.base_share < 1 else ""
    return f"{_WAYS[line.tax_way]}{share}"


def _money(amount: float, sign: str, places: int = 2) -> str:
    return f"{sign}{grouped(amount, places)}"


def _row(
    cells: Sequence[str], width: float, style: Style, *, notes: Sequence[str] = (),
    bold: bool = False,
) -> Piece:  # fmt: skip
    """One row; its second cell takes as many lines as it needs, its notes stand below."""
    size, step = style.small, style.small + 1.4
    lines = wrapped(cells[_NAME], _COLUMNS[_NAME][1] * width - _AIR, size, bold=bold)
    inset = _COLUMNS[0][1] * width
    below = stacked([paragraph(note, width - inset, style) for note in notes])
    height = max(1, len(lines)) * step + 2

    def draw(pen: Pen, x: float, y: float) -> None:
        at = x
        for i, (_, share, align) in enumerate(_COLUMNS):
            edge = at + (share * width - _AIR if align == "right" else 0)
            for down, words in enumerate(lines if i == _NAME else (cells[i],)):
                pen.words(edge, y + 1 + down * step, words, size, bold=bold, align=align)
            at += share * width
        below.draw(pen, x + inset, y + height - 1)
        pen.rule(x, y + height + below.height, width, THIN if bold else HAIR)

    return Piece(height + below.height + 1, draw)
