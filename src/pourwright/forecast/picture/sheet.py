"""Sheets that a bait lies on or is held against; all estimates, chosen by eye."""

from __future__ import annotations

WHITE_CARD_HEX = "#f4f4f0"
GRAY_BENCH_HEX = "#9b9b98"
BLACK_CARD_HEX = "#1b1b1b"
# How many times as brightly as the bait a sheet is lit that it is held to the light against.
LIT_BEHIND = 3.0
