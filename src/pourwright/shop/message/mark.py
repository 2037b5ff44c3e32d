"""What was understood where."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pourwright.base.field import out


class Sense(StrEnum):
    """What a piece of the text was taken for."""

    BAIT = "bait"
    LOOK = "look"
    NAME = "bait or look"
    COUNT = "how many"
    PACK = "pack size"
    DAY = "day"
    CUSTOMER = "customer"
    DOUBT = "speaks against it"
    NUMBER = "a number left over"


@dataclass(frozen=True, slots=True)
class Mark:
    """A piece of the text, from character `start` up to `end`, and what it was taken for."""

    start: int = out("First character, counted from 0")
    end: int = out("Character after the last")
    sense: Sense = out("What it was taken for")
    words: str = out("The same in words")


@dataclass(frozen=True, slots=True)
class Choice:
    """A record that the text names; more options than one, or none that is sure, are asked."""

    options: tuple[str, ...] = out("Ids it may be")
    sure: bool = out("Whether the text names exactly one")
    why: str = out("What is unclear")


@dataclass(frozen=True, slots=True)
class Count:
    """A number the text gives; `sure` as for a record."""

    options: tuple[int, ...] = out("Numbers it may be")
    sure: bool = out("Whether the text gives exactly one")
    why: str = out("What is unclear, or where the number is from")


def chosen(options: tuple[str, ...], why: str = "") -> Choice:
    """One record for sure if there is one and nothing speaks against it."""
    return Choice(options, len(options) == 1 and not why, why)


def counted(options: tuple[int, ...], why: str = "") -> Count:
    """One number for sure if there is one and nothing speaks against it."""
    return Count(options, len(options) == 1 and not why, why)
