"""What to do with a day whose microwaves would run for longer than they may."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pourwright.plan.day.day_step import MICROWAVED, DayStep
from pourwright.plan.day.split_days import HOUR_S, SplitCup, SplitDay, SplitInput, split_days
from pourwright.shop.pour_day import PourDay, Remark

MOST_DAYS = 12


def too_long(day: PourDay, steps: Sequence[DayStep]) -> Iterator[Remark]:
    """Where the cups need more microwave hours than the day has: which to pour on which day."""
    needs: dict[str, int] = {}
    for step in steps:
        if step.sort in MICROWAVED:
            needs[step.cup] = needs.get(step.cup, 0) + step.end_s - step.start_s
    room_h = day.microwave_h * day.microwaves
    if sum(needs.values()) <= room_h * HOUR_S:
        return
    found = split_days(
        SplitInput(
            cups=tuple(SplitCup(name=cup, microwave_s=s) for cup, s in needs.items()),
            days=tuple(SplitDay(name=f"day {i + 1}", microwave_h=room_h) for i in range(MOST_DAYS)),
        )
    )
    used = [it for it in found.days if it.cups]
    words = "; ".join(f"{it.day}: {', '.join(it.cups)}, {it.used_s / HOUR_S:.1f} h" for it in used)
    lost = [f"{p.cup}: {p.why}" for p in found.places if p.day is None]
    yield Remark(
        words=(
            f"The microwaves would run {sum(needs.values()) / HOUR_S:.1f} h, and this day has "
            f"{room_h:g} h. Split it over days: {words}. {'; '.join(lost)}"
        ).strip(),
        urgent=True,
    )
