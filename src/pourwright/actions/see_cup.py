"""A cup of a frozen sheet as it stands: what was done to it, and what to do next."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

from pourwright.actions.cup_fill import cup_fill, flash_point_c, oven_part, planned_cup, target_c
from pourwright.actions.oven_history import oven_cups, oven_subject, stories
from pourwright.actions.port import Bench, World
from pourwright.bench.cup_story import CupStory
from pourwright.forecast.heat import oven_belief
from pourwright.heat.carried_belief import carried_belief
from pourwright.heat.cooked_cup import CookedCup, belief_after
from pourwright.heat.history import LONGEST_REST_S, Instrument
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
    def settled(self) -> bool:
        """Whether the person has said in which unit the newest reading was meant."""
        return bool(self.story.entries) and self.story.entries[-1].settled


def see_cup(world: World, sheet: int, number: int) -> CupView:
    """A cup as it stands. Raises: NotFound, BadInput for a cup too small to be followed."""
    with world.bench() as bench:
        return cup_view(bench, sheet, number, now=world.clock.now())


def cup_view(bench: Bench, sheet: int, number: int, *, now: str) -> CupView:
    """The same within a unit of work, at that moment."""
    found = bench.sheets.get(sheet)
    cup, fill = planned_cup(found, number), cup_fill(found, number)
    story = stories(bench, found.code).get(number, CupStory(number))
    oven = oven_part(found)
    earlier = oven_cups(bench, oven_subject(found), until=(found.code, number))
    start = oven_belief(dataclasses.replace(oven, cups=()))
    belief = belief_after(start, tuple(it.cup for it in earlier), thermometer=fill.thermometer)
    asked = NextBurstInput(
        plastic_g=fill.plastic_g,
        cup_g=fill.cup_g,
        cup_diameter_mm=fill.cup_diameter_mm,
        start_c=fill.start_c,
        ambient_c=fill.ambient_c,
        prior=carried_belief(belief),
        history=story.steps,
        target_c=target_c(found),
        flash_point_c=flash_point_c(found),
        stood_s=0.0 if story.poured else min(story.stood_s(now), LONGEST_REST_S),
    )
    answer = next_burst(asked)
    return CupView(
        found, number, str(cup["layer"]), fill, story, answer, oven.instrument, len(earlier)
    )
