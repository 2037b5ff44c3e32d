"""A small worked example: an invented green whose drip came out too yellow."""

from __future__ import annotations

from typing import Any

from pourwright.color.match.example import EXAMPLE as MATCH

EXAMPLE: dict[str, Any] = {
    "match": MATCH,
    "in_cup": [
        {"name": "yellow", "grams": 0.21, "drops": 6},
        {"name": "blue", "grams": 0.07, "drops": 2},
    ],
    "drip": {
        "thick_mm": 3,
        "readings": [
            {
                "over": {"lab": {"lightness": 94.8, "a": -0.3, "b": 1.6}},
                "read": {"lab": {"lightness": 67.5, "a": -19.5, "b": 40.1}},
            },
            {
                "over": {"lab": {"lightness": 24.1, "a": 0.1, "b": -0.4}},
                "read": {"lab": {"lightness": 20.9, "a": -4.2, "b": 4.4}},
            },
        ],
    },
}
