"""A cup of a frozen sheet as it stands: what was done to it, and what to do next."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

from pourwright.actions.cup_fill import cup_fill, flash_point_c, oven_part, planned_cup, target_c
from pourwright.actions.oven_history import happenings, oven_cups, oven_subject
from pourwright.actions.port import Bench, World
from pourwright.bench.cup_story import CupStory, cup_stories, never_emptied
from pourwright.bench.told_fill import told_fill
from pourwright.forecast.heat import oven_belief
from pourwright.forecast.request import OvenPart
from pourwright.heat.carried_belief import carried_belief
from pourwright.heat.cooked_cup import CookedCup, belief_after
from pourwright.heat.history import LONGEST_REST_S, Instrument, Step
from pourwright.heat.next_burst import NextBurstAnswer, next_burst
from pourwright.heat.next_input import NextBurstInput
from pourwright.shop.sheet import Sheet


@dataclass(frozen=True, slots=True)
class CupView:
    """A cup of a sheet: what was done to it and what to do next.

    `layer` is the layer of the look it is for; `learned_from` counts the earlier cups of its oven
    that the answer rests on.
    """

    sheet: Sheet
    number: int
    layer: str
    fill: CookedCup
    story: CupStory
    answer: NextBurstAnswer
    instrument: Instrument
    learned_from: int

    @property
    def steps(self) -> tuple[Step, ...]:
        """Everything done to it, on one clock."""
        return never_emptied(self.story.steps, self.fill.plastic_g)

    @property
    def settled(self) -> bool:
        """Whether the person has said in which unit the newest reading was meant."""
        return bool(self.story.entries) and self.story.entries[-1].settled


def see_cup(world: World, sheet: int, number: int) -> CupView:
    """A cup as it stands. Raises: NotFound, BadInput for a cup too small to be followed."""
    with world.bench() as bench:
        return cup_view(bench, sheet, number, now=world.clock.now())


def cup_view(bench: Bench, sheet: int, number: int, *, now: str) -> CupView:
    """The same within a unit of work, at that moment."""
    return answered(cup_question(bench, sheet, number, now=now))


@dataclass(frozen=True, slots=True)
class CupQuestion:
    """A cup as the store tells it, before anything is reckoned."""

    sheet: Sheet
    number: int
    fill: CookedCup
    story: CupStory
    oven: OvenPart
    earlier: tuple[CookedCup, ...]
    now: str


def cup_question(bench: Bench, sheet: int, number: int, *, now: str) -> CupQuestion:
    """What is to be answered of a cup, so that the store need not wait for the answer.

    Raises: as `see_cup`.
    """
    found = bench.sheets.get(sheet)
    planned_cup(found, number)
    told = happenings(bench, found.code)
    fill = told_fill(told, number, cup_fill(found, number))
    story = cup_stories(told).get(number, CupStory(number))
    earlier = oven_cups(bench, oven_subject(found), until=(found.code, number))
    cooked = tuple(it.cup for it in earlier)
    return CupQuestion(found, number, fill, story, oven_part(found), cooked, now)


def answered(it: CupQuestion) -> CupView:
    """The cup with what to do next."""
    fill, story = it.fill, it.story
    start = oven_belief(dataclasses.replace(it.oven, cups=()))
    belief = belief_after(start, it.earlier, thermometer=fill.thermometer)
    asked = NextBurstInput(
        plastic_g=fill.plastic_g,
        cup_g=fill.cup_g,
        cup_diameter_mm=fill.cup_diameter_mm,
        start_c=fill.start_c,
        ambient_c=fill.ambient_c,
        prior=carried_belief(belief),
        history=never_emptied(story.steps, fill.plastic_g),
        target_c=target_c(it.sheet),
        flash_point_c=flash_point_c(it.sheet),
        stood_s=0.0 if story.poured else min(story.stood_s(it.now), LONGEST_REST_S),
    )
    layer = str(planned_cup(it.sheet, it.number)["layer"])
    answer = next_burst(asked)
    return CupView(
        it.sheet, it.number, layer, fill, story, answer, it.oven.instrument, len(it.earlier)
    )
