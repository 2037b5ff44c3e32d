"""The numbers of a batch at a glance: typical value large, range below."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pourwright.base.units import System
from pourwright.base.wording import (
    Words,
    money_words,
    percent,
    unit_label,
    words_of,
    worded,
)
from pourwright.render.pen import HAIR, Pen
from pourwright.render.piece import Piece, line, stacked
from pourwright.render.style import Style

Figures = Mapping[str, Mapping[str, Any]]

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
    ("spare", "spare baits"),
    ("load_ml", "one load"),
    ("plastic_cold_ml", "plastic cold"),
    ("plastic_hot_ml", "hot"),
    ("bait_ml", "one bait"),
    ("bait_density_g_ml", "density"),
    ("open_last_s", "mold shut at the last shot"),
    ("waste_g", "to the remelt pot"),
)
_ACROSS = 6


def figures_of(plan: Mapping[str, Any]) -> Figures:
    """The figures of a plan by key."""
    return {f["key"]: f for f in plan["figures"]}


def figure_strip(plan: Mapping[str, Any], system: System, sign: str, *, width: float,
                 style: Style) -> Piece:  # fmt: skip
    """Tiles for the figures a plan has, and one line with the lesser ones."""
    figures = figures_of(plan)
    tiles = [(label, _words(figures[key], system, sign)) for key, label in _TILES if key in figures]
    rows = [tiles[i : i + _ACROSS] for i in range(0, len(tiles), _ACROSS)]
    pieces = [_tile_row(row, width, style) for row in rows]
    return stacked((*pieces, line(_aside(plan, figures, system), width, style)))


def _words(figure: Mapping[str, Any], system: System, sign: str) -> Words:
    if figure["unit"] == "money":
        return money_words(figure["value"], sign)
    # A bench scale reads grams in any country.
    scale = System.METRIC if figure["unit"] == "g" else system
    return words_of(figure["value"], figure["unit"], scale)


def _tile_row(row: list[tuple[str, Words]], width: float, style: Style) -> Piece:
    each = width / _ACROSS
    big = style.size + 2.5
    height = style.small + big + style.small + 6

    def draw(pen: Pen, x: float, y: float) -> None:
        pen.rule(x, y, width, HAIR)
        for i, (label, words) in enumerate(row):
            at = x + i * each
            pen.words(at, y + 2, label, style.small, width=each - 4)
            pen.words(at, y + 2.5 + style.small, words.middle, big, bold=True, width=each - 4)
            spread = "" if words.low == words.high else words.range
            pen.words(at, y + 4 + style.small + big, spread, style.small, width=each - 4)

    return Piece(height, draw)


def _aside(plan: Mapping[str, Any], figures: Figures, system: System) -> str:
    parts = [f"{plan['shots']} shots"]
    if plan["loads"]:
        parts.append(f"{plan['loads']} injector loads")
    if "short_risk" in figures:
        parts.append(f"chance of too few {percent(figures['short_risk']['value'])}")
    for key, label in _ASIDES:
        if key in figures:
            figure = figures[key]
            parts.append(f"{label} {worded(figure['value']['typical'], figure['unit'], system)}")
    return "  ·  ".join(parts)


def grams(value: float) -> str:
    """A weight as a bench scale shows it."""
    return worded(value, "g", System.METRIC)


def ounces(value: float, system: System) -> str:
    """The same in ounces where they are read, else nothing."""
    shown = worded(value, "g", system)
    return shown if unit_label("g", system) != "g" and not shown.endswith("g") else ""
