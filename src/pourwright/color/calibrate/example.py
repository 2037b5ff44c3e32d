"""A small worked example: invented readings of one red over a black and a white card."""

from __future__ import annotations

from typing import Any


def _lab(lightness: float, a: float, b: float) -> dict[str, Any]:
    return {"lab": {"lightness": lightness, "a": a, "b": b}}


_WHITE, _BLACK = _lab(94.8, -0.3, 1.6), _lab(24.1, 0.1, -0.4)


def _puck(name: str, grams: float, white: Any, black: Any) -> dict[str, Any]:
    doses = [{"colorant": "red", "grams_per_100g": grams, "drops": round(grams / 0.035)}]
    return {
        "name": name, "thick_mm": 5, "doses": doses if grams else [],
        "readings": [{"over": _WHITE, "read": white}, {"over": _BLACK, "read": black}],
    }  # fmt: skip


EXAMPLE: dict[str, Any] = {
    "colorants": [{"name": "red"}],
    "pucks": [
        _puck("plain", 0, _lab(83.4, -0.6, 4.2), _lab(21.5, -0.4, -1.5)),
        _puck("red, 2 drops", 0.07, _lab(54.6, 45.2, 24.8), _lab(20.4, 7.9, 3.5)),
        _puck("red, 8 drops", 0.28, _lab(38.3, 48.6, 31.5), _lab(20.9, 18.0, 8.8)),
    ],
}
