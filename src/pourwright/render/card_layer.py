"""One layer on a color card: its swatch, its color, and what goes into 100 g of plastic."""

from __future__ import annotations

from pourwright.actions.look_card import CardDose, CardLayer
from pourwright.base.band import Band
from pourwright.base.units import System
from pourwright.base.wording import percent, words_of
from pourwright.render.pen import HAIR, Pen
from pourwright.render.piece import Piece
from pourwright.render.style import Style
from pourwright.render.type_face import width_of

_LEVEL = {"level teaspoons": "level tsp", "grams": "g"}
_AMOUNT_AT, _GRAMS_AT = 0.7, 1.0


def card_layer(
    layer: CardLayer, system: System, *, width: float, style: Style
) -> tuple[Piece, ...]:
    """The layer's head, and a row for each material."""
    rows = [_row(dose, system, width, style) for dose in layer.doses]
    return (_head(layer, width, style), *(rows or [_plain(style)]))


def _head(layer: CardLayer, width: float, style: Style) -> Piece:
    tall = 2 * style.row
    start = 3.2 * tall + 6
    share = f", {percent(layer.share)} of the bait" if layer.share < 1 else ""
    doubt = "" if layer.calibrated else "  (uncalibrated: by the colors entered, not by pucks)"
    lab = layer.lab
    color = "  ".join(
        f"{name} {_signed(band.typical, 1)} ({_signed(band.low)} to {_signed(band.high)})"
        for name, band in (("L*", lab.lightness), ("a*", lab.a), ("b*", lab.b))
    )

    def draw(pen: Pen, x: float, y: float) -> None:
        shown = layer.swatch
        pen.swatch(x, y + 1, start - 6, tall - 2, shown.over_white, shown.over_dark)
        title = f"{layer.name.capitalize()}{share}"
        pen.words(x + start, y, title, style.size + 1, bold=True, width=width - start)
        pen.words(x + start, y + style.row + 0.5, color + doubt, style.small, width=width - start)

    return Piece(tall + 3, draw, rows=1)


def _signed(value: float, places: int = 0) -> str:
    return f"{round(value, places) + 0.0:.{places}f}".replace("-", "−")


def _named(dose: CardDose) -> str:
    """The material, and what it is where its name does not say so."""
    sort = dose.sort.replace("_", " ")
    return dose.name if sort.split()[0] in dose.name.lower() else f"{dose.name}, {sort}"


def _row(dose: CardDose, system: System, width: float, style: Style) -> Piece:
    amount = f"{dose.amount:g} {_LEVEL.get(dose.measure, dose.measure)}"
    if dose.amount == 1 and dose.measure == "drops":
        amount = "1 drop"
    weight = "" if dose.measure == "grams" else _weight(dose.grams, system)
    room = width * _AMOUNT_AT - width_of(amount, style.size, bold=True) - 8

    def draw(pen: Pen, x: float, y: float) -> None:
        pen.rule(x, y, width, HAIR)
        pen.words(x, y + 1.5, _named(dose), style.size, width=room)
        end = x + width * _AMOUNT_AT
        pen.words(end, y + 1.5, amount, style.size, bold=True, align="right")
        pen.words(x + width * _GRAMS_AT, y + 1.5, weight, style.size, align="right")

    return Piece(style.row + 1, draw, rows=1)


def _weight(grams: Band, system: System) -> str:
    """The typical weight, and its range where there is one."""
    words = words_of(grams, "g", system)
    return words.middle if words.low == words.high else f"{words.middle} ({words.range})"


def _plain(style: Style) -> Piece:
    def draw(pen: Pen, x: float, y: float) -> None:
        pen.words(x, y + 1.5, "Plain plastic, nothing in it", style.size)

    return Piece(style.row + 1, draw, rows=1)
