"""The question in which unit a thermometer was read, with its two answers."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.units import UNITS, System
from pourwright.heat.history import COLDEST_READ_C, HOTTEST_READ_C, other_unit_c
from pourwright.heat.next_burst import NextBurstAnswer
from pourwright.web.degrees import read_words
from pourwright.web.show import Settings, exactly

_SAME_K = 0.6


@dataclass(frozen=True, slots=True)
class Ask:
    """Which unit was meant: the two answers in words, and the temperature each stands for."""

    words: str
    other: str
    other_c: float
    same: str
    same_c: float


def unit_question(answer: NextBurstAnswer, settings: Settings) -> Ask | None:
    """The question about the newest reading; none where the other unit explains nothing."""
    if answer.question is None or not answer.readings:
        return None
    newest = answer.readings[-1]
    if newest.meant_c is None or not COLDEST_READ_C <= newest.meant_c <= HOTTEST_READ_C:
        return None
    return Ask(
        answer.question.partition("? ")[2],
        _other_words(newest.read_c, newest.meant_c, settings), newest.meant_c,
        read_words(newest.read_c, settings), newest.read_c,
    )  # fmt: skip


def _other_words(read_c: float, meant_c: float, settings: Settings) -> str:
    """What the thermometer would have shown, in its own unit."""
    as_f, as_c = other_unit_c(read_c)
    if settings.system is System.US and abs(meant_c - as_c) < _SAME_K:
        return exactly(round(meant_c), UNITS["c"], settings, UNITS["c"])
    if settings.system is System.METRIC and abs(meant_c - as_f) < _SAME_K:
        return exactly(meant_c, UNITS["c"], settings, UNITS["f"])
    return read_words(meant_c, settings)
