"""How hot a pour day is: cups hot at one time, and what heating one cup again and again uses up."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from pourwright.base.band import Band
from pourwright.heat.scorch_words import BLEND
from pourwright.matter.remelt import HEAT_DOSE
from pourwright.plan.day.day_step import MICROWAVED, StepSort
from pourwright.shop.pour_day import PlannedStep, Timetable

_HOT = frozenset({*MICROWAVED, StepSort.POUR})


@dataclass(frozen=True, slots=True)
class DayHeat:
    """The most cups hot at once, the most heatings of one cup, and what those may use up.

    `used_share` counts each of the heatings as a usual heat, from 0 for none of the heat budget to
    1 for all of it; `ages` says that this is more than plastic should bring to its next heat.
    """

    hot_at_once: int
    heatings: int
    used_share: Band

    @property
    def ages(self) -> bool:
        """Whether a word is due."""
        return self.used_share.typical > BLEND


def day_heat(table: Timetable) -> DayHeat:
    """How hot the day of a timetable is."""
    heated = Counter(s.cup for s in table.steps if s.doing in MICROWAVED)
    heatings = max(heated.values(), default=0)
    return DayHeat(_hot_at_once(table), heatings, HEAT_DOSE.band.scaled(heatings))


def _hot_at_once(table: Timetable) -> int:
    """The most cups with hot plastic in them at one time; each layer of a look has its own."""
    each = {cup.name: len(cup.cups) for cup in table.cups}
    spans: dict[str, tuple[int, int]] = {}
    for step in table.steps:
        if step.doing in _HOT:
            first, last = spans.get(step.cup, _ends(step))
            spans[step.cup] = min(first, step.start_s), max(last, step.end_s)
    return max(
        (
            sum(each.get(cup, 1) for cup, (first, last) in spans.items() if first <= at < last)
            for at, _ in spans.values()
        ),
        default=0,
    )


def _ends(step: PlannedStep) -> tuple[int, int]:
    return step.start_s, step.end_s
