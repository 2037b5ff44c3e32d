"""The bars of an article number, with its digits below."""

from __future__ import annotations

from pourwright.base.errors import NoAnswer
from pourwright.render.barcode import POINTS_PER_MM, article_bars, draw_bars
from pourwright.render.label import PAD
from pourwright.render.pen import Pen
from pourwright.shop.label import BagLabel

# Eighty percent of the nominal module, the least that shops take: GS1 General Specifications,
# section 5.12 (from memory).
MODULE = 0.264 * POINTS_PER_MM
_HIGH = 18.3 * POINTS_PER_MM
_DIGITS = 7.5
_NAMES, _LEADING = 7.0, 1.16
# Lower bars are read only by a hand that aims well: estimate.
_LEAST_SHARE = 0.6
# Digits stand in groups, as people read them.
_GROUPS = {8: (4, 4), 12: (1, 5, 5, 1), 13: (1, 6, 6)}


def article_size(number: str) -> tuple[float, float]:
    """Width with its border and height with its digits, in points.

    Raises: BadInput for a number that cannot be one, NoAnswer for one that is not for a bag.
    """
    return article_bars(number).whole * MODULE, _HIGH + 1 + _DIGITS


def draw_article(pen: Pen, x: float, y: float, number: str, *, high: float = _HIGH) -> None:
    """Bars in their border, at the pen's point (`x`, `y`), over the digits."""
    bars = article_bars(number)
    draw_bars(pen, x + bars.quiet * MODULE, y, bars, module=MODULE, height=high)
    middle = x + bars.whole * MODULE / 2
    pen.words(middle, y + high + 1, _grouped(number), _DIGITS, align="middle")


def draw_article_label(pen: Pen, wide: float, high: float, label: BagLabel) -> None:
    """A label for shops: the names over the bars, which give way where it is low.

    Raises: NoAnswer for a bag without an article number, BadInput for one that cannot be.
    """
    if not label.article:
        raise NoAnswer(
            f"{label.bait} in {label.look} has no article number: type the one you were issued "
            "into its price, and it can be printed"
        )
    taken, tall = article_size(label.article)
    names = (label.bait, f"{label.look} · {label.lines()[0]}")
    top = PAD + len(names) * _NAMES * _LEADING + 1
    left = high - PAD - top
    if taken > wide - 2 * PAD or left < _LEAST_SHARE * tall:
        raise NoAnswer("the label is too small for the bars of an article number")
    for i, name in enumerate(names):
        y = PAD + i * _NAMES * _LEADING
        pen.words(PAD, y, name, _NAMES, bold=not i, width=wide - 2 * PAD)
    bars_high = min(_HIGH, left - (tall - _HIGH))
    draw_article(pen, (wide - taken) / 2, top, label.article, high=bars_high)


def _grouped(number: str) -> str:
    parts, left = [], number
    for length in _GROUPS[len(number)]:
        parts.append(left[:length])
        left = left[length:]
    return " ".join(parts)
