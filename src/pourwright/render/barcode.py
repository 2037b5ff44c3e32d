"""Bars: Code 128 for a lot code, and those of an article number; drawn as whole modules."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from reportlab.graphics.barcode.eanbc import UPCA, Ean8BarcodeWidget, Ean13BarcodeWidget
from reportlab.graphics.barcode.widgets import BarcodeCode128
from reportlab.graphics.shapes import Rect

from pourwright.base.errors import NoAnswer
from pourwright.render.pen import Pen
from pourwright.shop.check_scheme import refuse_bad_article_number

POINTS_PER_MM = 72 / 25.4
# Two dots of a 203 dpi printer, three of a 300 dpi one: the narrowest bar that both can print.
DOT_PAIR = 0.25 * POINTS_PER_MM
# ISO/IEC 15417:2007, section 4.4.1: light modules on both sides of Code 128.
QUIET = 10
# ISO/IEC 15420:2009, table 8: modules left of EAN-13, the widest margin of its family.
ARTICLE_QUIET = 11
_ARTICLES: dict[int, Any] = {8: Ean8BarcodeWidget, 12: UPCA, 13: Ean13BarcodeWidget}


@dataclass(frozen=True, slots=True)
class Bars:
    """Dark bars as (first module, modules), the width of all, and the border they need."""

    dark: tuple[tuple[int, int], ...]
    wide: int
    quiet: int

    @property
    def whole(self) -> int:
        """Modules with the quiet border on both sides."""
        return self.wide + 2 * self.quiet


def code_bars(text: str) -> Bars:
    """Code 128 of a lot code."""
    return _of(BarcodeCode128(value=text, barWidth=1, quiet=0, humanReadable=0), QUIET)


def article_bars(number: str) -> Bars:
    """The bars of an article number for one bag.

    Raises: BadInput for a number that cannot be one, NoAnswer for one of 14 digits.
    """
    refuse_bad_article_number(number, field="article_number")
    if len(number) not in _ARTICLES:
        raise NoAnswer(
            f"{number} has 14 digits: such numbers stand on cases, and no bars for one bag exist"
        )
    widget = _ARTICLES[len(number)]
    return _of(widget(number[:-1], barWidth=1, quiet=0, humanReadable=0), ARTICLE_QUIET)


def draw_bars(pen: Pen, x: float, y: float, bars: Bars, *, module: float, height: float) -> None:
    """The bars without their border, which the caller leaves."""
    path = pen.canvas.beginPath()
    for first, wide in bars.dark:
        left = pen.left + x + first * module
        path.rect(left, pen.top - y - height, wide * module, height)
    pen.canvas.setFillGray(0)
    pen.canvas.drawPath(path, stroke=0, fill=1)


def _of(widget: Any, quiet: int) -> Bars:
    """A library's drawing in modules: filled boxes are bars, the empty one is the whole."""
    boxes = [it for it in widget.draw().contents if isinstance(it, Rect)]
    dark = tuple((round(b.x), round(b.width)) for b in boxes if b.fillColor is not None)
    return Bars(dark, max(first + wide for first, wide in dark), quiet)
