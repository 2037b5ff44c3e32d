"""What the cups cooked in an oven taught: cup by cup, and after each lot."""

from __future__ import annotations

import dataclasses
import math
from dataclasses import dataclass

from pourwright.actions.cup_fill import flash_point_c, oven_part, target_c
from pourwright.actions.oven_history import OvenCup, oven_cups, oven_subject, subject_of
from pourwright.actions.plan_batch import workplace
from pourwright.actions.port import Bench
from pourwright.base.belief import Belief
from pourwright.forecast.heat import oven_belief
from pourwright.heat.carried_belief import carried_belief
from pourwright.heat.cooked_cup import CookedCup, Lesson, belief_after, lessons, why_test_due
from pourwright.heat.next_burst import next_burst
from pourwright.heat.next_input import NextBurstInput
from pourwright.plan.resolve import Picked, known_oven
from pourwright.shop.draft import Draft
from pourwright.shop.sheet import Sheet
from pourwright.shop.tool import Microwave


@dataclass(frozen=True, slots=True)
class OvenLearned:
    """What each of an oven's last cups taught, oldest first, and why a new test would pay."""

    cups: tuple[OvenCup, ...]
    lessons: tuple[Lesson, ...]
    test_due: str | None

    @property
    def narrowed_share(self) -> float:
        """By which share the cups narrowed what is known of the power; 0 where they did not."""
        if not self.lessons:
            return 0.0
        first, last = self.lessons[0].before_w, self.lessons[-1].power_w
        return max(0.0, 1 - last.half_width / first.half_width)


@dataclass(frozen=True, slots=True)
class LotLesson:
    """What a lot taught: the share by which the oven takes up more or less than was believed, and
    the first burst of such a cup before and after.
    """

    cups: int
    share: float
    before_s: float
    after_s: float


def oven_learned(bench: Bench, key: str, oven: Microwave) -> OvenLearned:
    """What the cups of a microwave taught, on top of its label, tests and readings."""
    cups = oven_cups(bench, subject_of(key))
    picked = Picked(workplace(bench), {})
    start = oven_belief(known_oven(Draft(count=1), oven, None, picked))
    learned = lessons(start, tuple(it.cup for it in cups))
    newest = learned[-1].belief if learned else start
    return OvenLearned(cups, learned, why_test_due(newest, learned))


def lot_lesson(bench: Bench, sheet: Sheet) -> LotLesson | None:
    """What the cups of a lot taught of their oven; none where no cup was followed."""
    return lesson_of(sheet, oven_cups(bench, oven_subject(sheet)))


def lesson_of(sheet: Sheet, cups: tuple[OvenCup, ...]) -> LotLesson | None:
    """The same from the cups of the oven, so that the store need not wait for it."""
    own = [i for i, it in enumerate(cups) if it.lot == sheet.code]
    if not own:
        return None
    start = oven_belief(dataclasses.replace(oven_part(sheet), cups=()))
    told = tuple(it.cup for it in cups)
    read_with = told[own[0]].thermometer
    before = belief_after(start, told[: own[0]], thermometer=read_with)
    after = belief_after(start, told[: own[-1] + 1], thermometer=read_with)
    first = dataclasses.replace(told[own[0]], history=())
    return LotLesson(
        cups=len(own),
        share=math.exp(after.mean[0] - before.mean[0]) - 1,
        before_s=_first_burst_s(sheet, first, before),
        after_s=_first_burst_s(sheet, first, after),
    )


def _first_burst_s(sheet: Sheet, fill: CookedCup, belief: Belief) -> float:
    return next_burst(
        NextBurstInput(
            plastic_g=fill.plastic_g,
            cup_g=fill.cup_g,
            cup_diameter_mm=fill.cup_diameter_mm,
            start_c=fill.start_c,
            ambient_c=fill.ambient_c,
            prior=carried_belief(belief),
            target_c=target_c(sheet),
            flash_point_c=flash_point_c(sheet),
        )
    ).on_s
