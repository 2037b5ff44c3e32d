"""One label of a lot: its square, its bars and its words, as large as the label lets them be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.base.errors import NoAnswer
from pourwright.render.barcode import DOT_PAIR, POINTS_PER_MM, Bars, code_bars, draw_bars
from pourwright.render.pen import Pen
from pourwright.render.qr import QUIET_MODULES, qr_matrix
from pourwright.render.text import fitted
from pourwright.render.type_face import width_of
from pourwright.shop.label import TAKE_HOME, BagLabel

PAD = 1.3 * POINTS_PER_MM
_SIZES = (15.0, 14.0, 13.0, 12.0, 11.0, 10.5, 10.0, 9.5, 9.0, 8.5, 8.0, 7.5, 7.0, 6.5, 6.0, 5.5)
_LEADING = 1.16
# Shares of the largest square that fits, and the size of words up to which it gives way.
_SQUARES = (1.0, 0.85, 0.7)
_GOOD_SIZE = 8.0
# A third of a millimeter to a module, which a phone reads at arm's length.
_LEAST_SQUARE = 29 * 0.33 * POINTS_PER_MM
# Of dots in pairs, how many a module of the bars may take.
_WIDER = (2.0, 1.5, 1.0)
_LOWEST_BARS = 5 * POINTS_PER_MM
_HIGHEST_BARS = 12 * POINTS_PER_MM
_LARGEST_SQUARE = 26 * POINTS_PER_MM
_FOOT = 6.5
_JOINT = " · "


@dataclass(frozen=True, slots=True)
class _Layout:
    """Where square, words and bars stand, in points from the label's upper left; how words are set.

    `across` is the left end and the width of bars and foot.
    """

    square: float
    across: tuple[float, float]
    bars_top: float
    bars_high: float
    module: float
    words: tuple[float, float]
    names: tuple[str, ...]
    lines: tuple[str, ...]
    size: float
    home_below: bool


def draw_label(pen: Pen, wide: float, high: float, label: BagLabel) -> None:
    """The label in a field of `wide` times `high` points, whose upper left is the pen's.

    Raises: NoAnswer where codes and words do not fit.
    """
    bars, matrix = code_bars(label.code), qr_matrix(label.code)
    it = _laid_out(wide, high, bars, label)
    border = it.square * QUIET_MODULES / (len(matrix) + 2 * QUIET_MODULES)
    pen.code(PAD + border, PAD + border, it.square - 2 * border, matrix)
    for i, line in enumerate((*it.names, *it.lines)):
        y = it.words[1] + i * it.size * _LEADING
        pen.words(it.words[0], y, line, it.size, bold=not i)
    x, room = it.across
    at = x + (room - bars.whole * it.module) / 2 + bars.quiet * it.module
    draw_bars(pen, at, it.bars_top, bars, module=it.module, height=it.bars_high)
    below = it.bars_top + it.bars_high + 1
    pen.words(x, below, label.code, _FOOT, bold=True)
    if it.home_below:
        pen.words(x + room, below, TAKE_HOME, _FOOT, align="right")


def _laid_out(wide: float, high: float, bars: Bars, label: BagLabel) -> _Layout:
    """The largest square that leaves words a good size, or else the largest words."""
    if bars.whole * DOT_PAIR > wide - 2 * PAD:
        raise NoAnswer("the label is too narrow for the bars of a lot code")
    tried = [_with_square(wide, high, bars, label, share) for share in _SQUARES]
    fitting = [it for it in tried if it is not None]
    if not fitting:
        raise NoAnswer("the label is too small for its words")
    return max(fitting, key=lambda it: (min(it.size, _GOOD_SIZE), it.square))


def _with_square(
    wide: float, high: float, bars: Bars, label: BagLabel, share: float
) -> _Layout | None:
    """Bars beside a square of that share of what would fit, or below it; none for no words."""
    bars_high = min(max(_LOWEST_BARS, 0.2 * high), _HIGHEST_BARS)
    bars_top = high - PAD - _FOOT - 1 - bars_high
    square = share * min(high - 2 * PAD, _LARGEST_SQUARE)
    x, room = PAD + square, wide - 2 * PAD - square
    if bars.whole * DOT_PAIR > room:
        square = share * min(bars_top - PAD, _LARGEST_SQUARE)
        x, room = PAD, wide - 2 * PAD
    home = width_of(label.code, _FOOT, bold=True) + _FOOT + width_of(TAKE_HOME, _FOOT) <= room
    phrases = label.lines() if home else (*label.lines(), TAKE_HOME)
    field = (wide - 2 * PAD - square, bars_top - PAD)
    names = (label.bait, label.look)
    size = _size(*field, names, phrases)
    if size is None or square < _LEAST_SQUARE:
        return None
    module = DOT_PAIR * next(w for w in _WIDER if bars.whole * DOT_PAIR * w <= room)
    return _Layout(
        square, (x, room), bars_top, bars_high, module, (PAD + square, PAD),
        tuple(fitted(n, field[0], size, bold=not i) for i, n in enumerate(names)),
        packed(phrases, field[0], size), size, home,
    )  # fmt: skip


def _size(room: float, high: float, names: Sequence[str], phrases: Sequence[str]) -> float | None:
    """The largest size that fits; names are cut only where the smallest is too wide."""
    low = [s for s in _SIZES if (len(packed(phrases, room, s)) + len(names)) * s * _LEADING <= high]
    whole = (s for s in low if all(width_of(n, s, bold=True) <= room for n in names))
    return next(whole, low[-1] if low else None)


def packed(phrases: Sequence[str], room: float, size: float) -> tuple[str, ...]:
    """Phrases set on as few lines as their order allows; one that is too long is cut."""
    lines: list[str] = []
    for phrase in phrases:
        joined = f"{lines[-1]}{_JOINT}{phrase}" if lines else phrase
        if lines and width_of(joined, size) <= room:
            lines[-1] = joined
        else:
            lines.append(fitted(phrase, room, size))
    return tuple(lines)
