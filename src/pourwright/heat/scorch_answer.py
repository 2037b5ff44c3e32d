"""What a scorch budget answers."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.band import Band
from pourwright.base.field import out
from pourwright.heat.scorch_words import Advice


@dataclass(frozen=True, slots=True)
class TimeLeft:
    """How long the lot may still stay at a temperature."""

    at_c: float = out("Temperature")
    left_min: Band = out("Minutes until the budget is used up at the hottest place")


@dataclass(frozen=True, slots=True)
class ScorchAnswer:
    """The heat budget used; a share of 1 means all of it."""

    dose_share: Band = out("Share of the budget used at the hottest place, an upper bound")
    mean_dose_share: Band = out("The same at the mean temperature, a lower bound")
    brought_share: Band = out("What remelt brought into the lot, part of both")
    left: tuple[TimeLeft, ...] = out("Time left at some temperatures")
    advice: Advice = out("fine, use soon, blend down or discard")
    fresh_needed_g: Band | None = out(
        "Fresh plastic that brings the lot under half; null if its grams are unknown"
    )
    words: str = out("The advice as a sentence")
    yellowness: Band | None = out("By your samples; null without them, or outside their doses")
    yellow_from_share: float | None = out("Smallest dose among your samples")
    yellow_to_share: float | None = out("Largest dose among your samples")
    cautions: tuple[str, ...] = out("What can hurt")
    notes: tuple[str, ...] = out("What dominates, and what would narrow it")
