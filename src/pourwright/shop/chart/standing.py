"""How far what is charted may be trusted, by how many lots there are."""

from __future__ import annotations

from enum import StrEnum

# Common practice: limits are tried from some eight lots on, and kept from 20 to 25.
LEAST_LOTS = 8
SETTLED_LOTS = 25


class Standing(StrEnum):
    """How many lots stand behind the limits."""

    TOO_FEW = "too few to say"
    PROVISIONAL = "provisional"
    SETTLED = "settled"


def standing_of(lots: int) -> Standing:
    """The standing of so many lots.

    >>> standing_of(7).value, standing_of(8).value, standing_of(25).value
    ('too few to say', 'provisional', 'settled')
    """
    if lots < LEAST_LOTS:
        return Standing.TOO_FEW
    return Standing.PROVISIONAL if lots < SETTLED_LOTS else Standing.SETTLED


def standing_words(lots: int) -> str:
    """The same as a sentence."""
    counted = "1 lot" if lots == 1 else f"{lots or 'no'} lots"
    match standing_of(lots):
        case Standing.TOO_FEW:
            return f"Too few to say: {counted}, and limits begin at {LEAST_LOTS}."
        case Standing.PROVISIONAL:
            return f"{counted}: the limits are provisional until there are {SETTLED_LOTS}."
        case Standing.SETTLED:
            return f"{counted} stand behind the limits."
