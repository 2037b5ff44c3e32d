"""The steps of a timetable, as a person reads them: times in seconds from the start of the day."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pourwright.base.field import out


class StepSort(StrEnum):
    """What is done in a step."""

    HEAT = "heat"
    REWARM = "rewarm"
    POUR = "pour"
    COOL = "cool"
    CLEAN = "clean"


MICROWAVED = (StepSort.HEAT, StepSort.REWARM)
BY_HAND = (StepSort.POUR, StepSort.CLEAN)


@dataclass(frozen=True, slots=True)
class DayStep:
    """One bar of the timetable."""

    sort: StepSort = out("What is done: heat, rewarm, pour, cool, clean")
    cup: str = out("Cup; of a clean-up, the cup that comes after it")
    wave: int = out("Which heating of the cup it belongs to, from 1; 0 for a clean-up")
    start_s: int = out("Start, from the start of the day")
    end_s: int = out("End, from the start of the day")
    kit: int = out("Injector kit, from 1")
    lane: int = out("Which microwave (heat, rewarm) or person (pour, clean), from 1; 0 for cooling")
    mold: str = out("Mold that cools; empty for other steps")
    molds: int = out("How many of that mold cool; 0 for other steps")
    begun: bool = out("It has been begun or done: a fact, not a plan")


@dataclass(frozen=True, slots=True)
class DayTotals:
    """What a timetable comes to."""

    span_s: int = out("Until the last mold is opened, from the start of the day")
    late_s: int = out("Sum over the cups of the time that they are late")
    clean_ups: int = out("Clean-ups")
    objective: float = out("Points: span, lateness and clean-ups by their weights")
