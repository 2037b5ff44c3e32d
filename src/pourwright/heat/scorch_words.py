"""What a used heat budget means at the bench."""

from __future__ import annotations

from enum import StrEnum

from pourwright.base.units import in_both

USE_SOON, BLEND, SPENT = 0.25, 0.5, 1.0


class Advice(StrEnum):
    """What to do with a pot."""

    FINE = "fine"
    USE_SOON = "use soon"
    BLEND = "blend down"
    DISCARD = "discard"


HCL = (
    "Scorched vinyl gives off hydrogen chloride. OSHA's ceiling in the air is 5 ppm (7 mg/m³; 29 "
    "CFR 1910.1000, table Z-1), never to be passed even for a moment. Extraction on; if nose or "
    "eyes smart, oven off and out of the room. Local codes and licensed advice come first."
)
HOT_C = 200.0


def advice_for(dose: float) -> Advice:
    """By the typical share of the budget used at the hottest place."""
    if dose < USE_SOON:
        return Advice.FINE
    if dose < BLEND:
        return Advice.USE_SOON
    return Advice.BLEND if dose < SPENT else Advice.DISCARD


def in_words(advice: Advice, *, fresh_g: float | None, fresh_share: float) -> str:
    """The advice as a sentence; `fresh_share` is fresh plastic to each gram of the pot."""
    match advice:
        case Advice.FINE:
            return "Fine: heat it again like fresh plastic, and count the heat."
        case Advice.USE_SOON:
            return "Use it soon: one or two more heats, with fresh plastic, no long holds."
        case Advice.BLEND:
            grams = (
                f"{100 * fresh_share:.0f} g to each 100 g"
                if fresh_g is None
                else f"{fresh_g:.0f} g"
            )
            return (
                f"Blend it down before the next heat: {grams} of fresh plastic bring it under half."
            )
        case Advice.DISCARD:
            return (
                "Discard it: its stabilizer is spent, so it yellows and fumes at the next heat. "
                "Do not blend it in."
            )


def hot_note(hottest_c: float) -> tuple[str, ...]:
    """A caution where a place in the pot was hotter than it may be."""
    if hottest_c < HOT_C:
        return ()
    words = (
        f"A place in it reached {in_both(hottest_c)}. Scorching runs away up there, and the "
        "plasticizer's flash point comes near. Shorter bursts, more stirs."
    )
    return (words,)
