"""The tests that suspected causes can be put to, and the calculation behind each."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum


class Trial(StrEnum):
    """A question to a calculation, from the numbers of one lot."""

    CLAMP = "clamp"
    GAP = "gap"
    FULL = "full"
    COLD_MOLD = "cold mold"
    AIR = "air"
    ENDS = "ends"
    HOLD = "hold"
    OPEN = "open"
    BUBBLES = "bubbles"
    STEAM = "steam"
    FLAKE = "flake"
    SALT = "salt"
    JOIN = "join"
    SCORCH = "scorch"
    FUSED = "fused"
    WINDOW = "window"
    SOFTNESS = "softness"
    SINK = "sink"


CALCULATIONS: Mapping[Trial, str] = {
    Trial.CLAMP: "fill.clamp",
    Trial.GAP: "fill.clamp",
    Trial.FULL: "fill.odds",
    Trial.COLD_MOLD: "fill.odds",
    Trial.AIR: "fill.air",
    Trial.ENDS: "body.filling",
    Trial.HOLD: "fill.hold",
    Trial.OPEN: "cool.bait",
    Trial.BUBBLES: "fill.bubbles",
    Trial.STEAM: "fill.bubbles",
    Trial.FLAKE: "fill.settle",
    Trial.SALT: "fill.settle",
    Trial.JOIN: "fill.join",
    Trial.SCORCH: "cook.scorch",
    Trial.FUSED: "cook.next_burst",
    Trial.WINDOW: "cool.window",
    Trial.SOFTNESS: "blend.hardness",
    Trial.SINK: "swim.sink",
}
