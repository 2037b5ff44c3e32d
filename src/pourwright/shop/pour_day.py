"""Pour days: what is to be poured, with what, and the timetable that came of it."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import ClassVar

from pourwright.base.band import Band
from pourwright.base.field import band, flag, number, part, parts, reference, text, unmeasured
from pourwright.base.record import Record
from pourwright.shop.day import DAY, refuse_no_day
from pourwright.shop.noun import Noun

CLOCK = "([01][0-9]|2[0-3]):[0-5][0-9]"
MOST_BATCHES, MOST_CUPS, MOST_S = 40, 100, 24 * 3600


@dataclass(frozen=True, slots=True, kw_only=True)
class PourBatch(Record):
    """Baits of one look out of one mold."""

    mold: str = reference("Mold", refers="mold")
    look: str = reference("Look", refers="look", default="")
    count: int = number("Good baits wanted", low=1, high=20_000)
    due_on: str = text("Needed by, day", most=10, pattern=f"({DAY})?", default="")
    needed_at: str = text(
        "Time on the pour day, as 14:30", most=5, pattern=f"({CLOCK})?", default=""
    )
    takes_remelt: bool = flag("Dark enough to take remelt")
    heat_min: float | None = number(
        "Heating, if you timed it",
        low=0.5, high=120, default=None,
    )  # fmt: skip
    cool_min: float | None = number(
        "Shot to opening, if you timed it",
        low=0.25, high=120, default=None,
    )  # fmt: skip
    why: str = text("What for", most=300, default="")
    sheet: int = number("Its batch sheet; 0 before it is frozen", low=0, high=10**9, default=0)

    def check(self) -> None:
        """Refuse a day that no calendar has."""
        refuse_no_day("due_on", self.due_on)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedCup(Record):
    """A cup of a batch, or one for each layer of its look, heated and shot together."""

    name: str = text("Cup", most=64)
    title: str = text("What it is for: look and mold", most=200)
    batch: int = number("Place of its batch in the list, from 0", low=0, high=MOST_BATCHES)
    cups: tuple[int, ...] = parts("Its cups on the batch sheet", most=8, low=1, high=1000)
    shots: int = number("Shots", low=1, high=1000)
    plastic_g: float = number("Plastic", low=0, high=50_000)
    remelt_g: float = number("Remelt in it", low=0, high=50_000, default=0)
    heat_s: Band = band("Heating", low=1, high=7200)
    cool_s: Band = band("From the shot to opening the mold", low=0, high=7200)
    shot_s: Band = band("Drawing and shooting one mold", low=1, high=3600)
    shade: int = number("How dark, 0 to 100", low=0, high=100)
    colors: str = text("Colors of its layers, #rrggbb each", most=80)
    due_min: int | None = number("Due after the start", low=0, high=MOST_S // 60, default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedStep(Record):
    """One bar of the timetable, in seconds from the start of the day."""

    doing: str = text("heat, rewarm, pour, cool or clean", most=10)
    cup: str = text("Cup", most=64, default="")
    wave: int = number("Which heating of the cup", low=0, high=100)
    start_s: int = number("Start", low=0, high=10 * MOST_S)
    end_s: int = number("End", low=0, high=10 * MOST_S)
    kit: int = number("Injector kit", low=0, high=20)
    lane: int = number("Which microwave or person; 0 for cooling", low=0, high=20)
    mold: str = text("Mold that cools", most=64, default="")
    molds: int = number("How many of it", low=0, high=100, default=0)
    begun: bool = flag("A fact, not a plan")


@dataclass(frozen=True, slots=True, kw_only=True)
class Remark(Record):
    """A note on a timetable."""

    words: str = text("Words", most=2000)
    urgent: bool = flag("To be read before anything else")


@dataclass(frozen=True, slots=True, kw_only=True)
class Timetable(Record):
    """A checked timetable and what it comes to."""

    cups: tuple[PlannedCup, ...] = parts("Cups", most=MOST_CUPS)
    steps: tuple[PlannedStep, ...] = parts("Steps", most=2000)
    points: float = number("Points of span, lateness and clean-ups", low=0, high=1e9)
    span_s: int = number("Until the last mold is opened", low=0, high=10 * MOST_S)
    late_s: int = number("Lateness, all cups together", low=0, high=1_000_000_000)
    clean_ups: int = number("Clean-ups", low=0, high=1000)
    gap_words: str = text("How far from the best", most=200, default="")
    searched: bool = flag("More than the simple rules were tried")
    remarks: tuple[Remark, ...] = parts("Remarks", most=200)


@dataclass(frozen=True, slots=True, kw_only=True)
class PourDay(Noun):
    """Several batches in one go: who is where, and when."""

    key: ClassVar[str] = "pour_day"
    label: ClassVar[str] = "Pour day"
    plural: ClassVar[str] = "Pour days"
    place: ClassVar[str] = "pour-day"

    name: str = text("What you call it", most=60, default="")
    day: str = text("Day", pattern=DAY, most=10)
    begins: str = text("First cup into the microwave at", label="Begins at", pattern=CLOCK,
                       most=5, default="09:00")  # fmt: skip
    batches: tuple[PourBatch, ...] = parts("Batches", most=MOST_BATCHES)
    cup: str = reference("Pouring cup", refers="cup", default="")
    plastic: str = reference("Plastic", refers="plastic", default="")
    microwave: str = reference("Microwave", refers="microwave", default="")
    thermometer: str = reference("Thermometer", refers="thermometer", default="")
    injector: str = reference("Injector; none for pouring by hand", refers="injector", default="")
    spoons: str = reference("Spoons", refers="spoons", default="")
    scale: str = reference("Scale", refers="scale", default="")
    remelt: str = reference("Remelt pot", refers="remelt_pot", default="")
    microwaves: int = number("Microwaves that run at once", low=1, high=8, default=1)
    kits: int = number("Kits of cup and injector", low=1, high=20, default=1)
    hands: int = number("People who pour and clean", low=1, high=8, default=1)
    shot_s: float | None = unmeasured(
        "Drawing and shooting one mold", low=5, high=600, typical=(15, 30, 60),
        measure="time one draw and shot",
    )  # fmt: skip
    hold_s: float | None = unmeasured(
        "Longest that a hot cup may wait before its pour", low=0, high=1800,
        typical=(120, 180, 300), measure="time a full cup from hot to too thick",
    )  # fmt: skip
    rewarm_s: float | None = unmeasured(
        "Heating a cup once more between pours", low=0, high=1800, typical=(30, 60, 120),
        measure="time one rewarm",
    )  # fmt: skip
    clean_min: float | None = unmeasured(
        "Clean-up of a kit before a lighter color", low=0, high=120, typical=(3, 6, 12),
        measure="time one clean-up",
    )  # fmt: skip
    microwave_h: float = number(
        "Hours the microwaves may run that day, each", label="Microwave hours", low=0.25, high=12,
        default=4,
    )  # fmt: skip
    starts_at: str = text(
        "Its start in universal time, once its sheets are frozen", most=30, default=""
    )
    timetable: Timetable | None = part("Timetable", default=None)

    def check(self) -> None:
        """Refuse a day that no calendar has."""
        refuse_no_day("day", self.day)

    @property
    def begins_min(self) -> int:
        """Its start in minutes from midnight."""
        return minute_of(self.begins)

    @property
    def frozen(self) -> bool:
        """Whether its batches have sheets."""
        return bool(self.starts_at)


def minute_of(clock: str) -> int:
    """A time of day in minutes from midnight.

    >>> minute_of("14:30")
    870
    """
    time = dt.time.fromisoformat(clock)
    return 60 * time.hour + time.minute
