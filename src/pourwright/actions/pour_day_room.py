"""Whether the microwaves may run for as long as the batches of a pour day need."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pourwright.base.units import convert
from pourwright.plan.day.day_input import DayInput
from pourwright.plan.day.wave_split import microwave_s
from pourwright.shop.pour_day import PlannedCup, PourDay, Remark


def room_s(day: PourDay) -> int:
    """Seconds that all microwaves together may run."""
    return int(convert(day.microwave_h * day.microwaves, "h", "s"))


def needs_s(day: PourDay, cups: Sequence[PlannedCup], asked: DayInput) -> tuple[int, ...]:
    """Microwave seconds of each batch, all heatings of its cups together."""
    found = [0] * len(day.batches)
    for planned, cup in zip(cups, asked.cups, strict=True):
        found[planned.batch] += microwave_s(cup, asked)
    return tuple(found)


def too_long(day: PourDay, needs: Sequence[int]) -> Iterator[Remark]:
    """That the batches need more microwave hours than the day has."""
    room = room_s(day)
    if sum(needs) > room:
        yield Remark(
            words=f"The microwaves would run {hours(sum(needs))}, and this day has {hours(room)}: "
            "split it over several days, or give it more hours.",
            urgent=True,
        )


def hours(seconds: int) -> str:
    """Microwave time in words.

    >>> hours(5400), hours(1000), hours(432_360)
    ('1.5 h', '0.28 h', '120.1 h')
    """
    return f"{round(convert(seconds, 's', 'h'), 2):g} h"
