"""How far a number speaks for a suspected cause."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pourwright.base.band import Band

# Odds from which a cause is likely or possible; estimates.
LIKELY_FROM, POSSIBLE_FROM = 0.3, 0.05
# The unit of a figure that is a share of 1.
SHARE = "share"


class Likelihood(StrEnum):
    """What a test says of a suspected cause."""

    LIKELY = "likely"
    POSSIBLE = "possible"
    CANNOT_SAY = "cannot say"
    UNLIKELY = "unlikely"


@dataclass(frozen=True, slots=True)
class Shown:
    """A number of a verdict; a share has the unit `share`."""

    label: str
    value: Band
    unit: str


@dataclass(frozen=True, slots=True)
class Judged:
    """A verdict in words with the numbers it rests on.

    `measure` says what would settle it, where the numbers do not.
    """

    likelihood: Likelihood
    words: str
    figures: tuple[Shown, ...] = ()
    measure: str = ""


def by_odds(odds: float) -> Likelihood:
    """The word for the odds that a cause is at work."""
    if odds >= LIKELY_FROM:
        return Likelihood.LIKELY
    return Likelihood.POSSIBLE if odds >= POSSIBLE_FROM else Likelihood.UNLIKELY


def by_limit(value: Band, limit: float) -> Likelihood:
    """The word for something that shows from a limit on."""
    if value.typical >= limit:
        return Likelihood.LIKELY
    return Likelihood.POSSIBLE if value.high >= limit else Likelihood.UNLIKELY


def too_short(seconds: float, takes_s: Band) -> Likelihood:
    """The word for a time that may not have been enough."""
    if seconds < takes_s.typical:
        return Likelihood.LIKELY
    return Likelihood.POSSIBLE if seconds < takes_s.high else Likelihood.UNLIKELY
