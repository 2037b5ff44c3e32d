"""The numbers of a batch at a glance: typical value large, range below."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from pourwright.base.units import System
from pourwright.base.wording import Words, money_words, percent, words_of
from pourwright.plan.batch_plan import BatchPlan, Figure
from pourwright.render.pen import HAIR, Pen
from pourwright.render.piece import Piece, paragraph, stacked
from pourwright.render.style import Style
from pourwright.render.type_face import width_of

_TILES = (
    ("good", "Good baits"),
    ("plastic_g", "Plastic, all in"),
    ("cup_window_s", "Cup stays pourable"),
    ("injector_window_s", "Injector shootable"),
    ("open_s", "Mold stays shut"),
    ("minutes", "Time in all"),
    ("bait_g", "One bait"),
    ("hardness_oo", "Hardness, Shore OO"),
    ("thickest_mm", "Thickest place"),
    ("cost_total_money", "Cost of the batch"),
    ("cost_each_money", "Cost of a good bait"),
    ("price_money", "Price for the margin"),
)
_ASIDES = (
    ("open_last_s", "mold shut at the last shot"),
    ("spare", "spare baits"),
    ("load_ml", "one load"),
    ("plastic_cold_ml", "plastic cold"),
    ("plastic_hot_ml", "hot"),
    ("waste_g", "to the remelt pot"),
    ("bait_ml", "one bait"),
    ("bait_density_g_ml", "density"),
)
_ACROSS = 6
_JOINT = "  ·  "


def figure_strip(
    plan: BatchPlan, system: System, sign: str, *, width: float, style: Style
) -> Piece:
    """Tiles for the figures a plan has, and the lesser ones in a line or two."""
    figures = {f.key: f for f in plan.figures}
    tiles = [(label, _words(figures[key], system, sign)) for key, label in _TILES if key in figures]
    rows = [tiles[i : i + _ACROSS] for i in range(0, len(tiles), _ACROSS)]
    row_of = _compact_row if style.compact else _tile_row
    pieces = [row_of(row, width, style) for row in rows]
    asides = _asides(plan, figures, system)
    if style.compact:
        return stacked((*pieces, paragraph(_on_one_line(asides, width, style), width, style)))
    return stacked((*pieces, paragraph(_JOINT.join(asides), width, style, most=2)))


def _words(figure: Figure, system: System, sign: str) -> Words:
    if figure.unit == "money":
        return money_words(figure.value, sign)
    return words_of(figure.value, figure.unit, system)


def _tile_row(row: Sequence[tuple[str, Words]], width: float, style: Style) -> Piece:
    each = width / _ACROSS
    big = style.size + 2.5
    height = style.small + big + style.small + 7

    def draw(pen: Pen, x: float, y: float) -> None:
        pen.rule(x, y, width, HAIR)
        for i, (label, words) in enumerate(row):
            at = x + i * each
            pen.words(at, y + 2, label, style.small, width=each - 4)
            pen.words(at, y + 2.5 + style.small, words.middle, big, bold=True, width=each - 4)
            spread = "" if words.low == words.high else words.range
            pen.words(at, y + 4 + style.small + big, spread, style.small, width=each - 4)

    return Piece(height, draw)


def _compact_row(row: Sequence[tuple[str, Words]], width: float, style: Style) -> Piece:
    each = width / _ACROSS
    big = style.size + 1.0

    def draw(pen: Pen, x: float, y: float) -> None:
        pen.rule(x, y, width, HAIR)
        for i, (label, words) in enumerate(row):
            at = x + i * each
            pen.words(at, y + 1.5, label, style.small, width=each - 4)
            below = y + 1.5 + style.small
            pen.words(at, below, words.middle, big, bold=True, width=each - 4)
            taken = width_of(words.middle, big, bold=True) + 4
            spread = "" if words.low == words.high else words.bare
            if taken < each - 8:
                room = each - taken - 4
                pen.words(at + taken, below + 1, spread, style.small, width=room)

    return Piece(style.small + big + 3.5, draw)


def _asides(plan: BatchPlan, figures: Mapping[str, Figure], system: System) -> list[str]:
    parts = [f"{plan.shots} shots"]
    if plan.loads:
        parts.append(f"{plan.loads} injector loads")
    if "short_risk" in figures:
        parts.append(f"chance of too few {percent(figures['short_risk'].value)}")
    for key, label in _ASIDES:
        if key in figures:
            words = words_of(figures[key].value, figures[key].unit, system)
            parts.append(f"{label} {words.middle}")
    return parts


def _on_one_line(parts: Sequence[str], width: float, style: Style) -> str:
    """As many whole parts as one line holds; the foremost matter most."""
    for count in range(len(parts), 0, -1):
        words = _JOINT.join(parts[:count])
        if width_of(words, style.small) <= width:
            return words
    return ""
