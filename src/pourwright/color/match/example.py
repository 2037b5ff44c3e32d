"""A small worked example: an invented shelf of five and a green to hit."""

from __future__ import annotations

from typing import Any


def _drops(name: str, kind: str, color_hex: str) -> dict[str, Any]:
    return {
        "name": name, "drop_mass_g": 0.035, "price_per_kg_money": 90,
        "colorant": {"kind": kind, "color_hex": color_hex},
    }  # fmt: skip


EXAMPLE: dict[str, Any] = {
    "target": {"lab": {"lightness": 46, "a": -22, "b": 34}},
    "plastic_g": 170,
    "thick_mm": 9,
    "shelf": [
        _drops("white", "opaque", "#f2f2ee"),
        _drops("black", "opaque", "#1c1c1e"),
        _drops("yellow", "dye", "#e8c020"),
        _drops("blue", "dye", "#2a5fae"),
        _drops("red", "dye", "#b5342c"),
    ],
}
