"""What the shelf can make."""

from __future__ import annotations

import functools

from pourwright.actions.port import Bench, World
from pourwright.actions.shelf_color import color_shelf
from pourwright.base.errors import NoAnswer
from pourwright.color.reach.answer import ReachAnswer
from pourwright.color.reach.question import MOST_BOTTLES, ReachInput
from pourwright.color.reach.survey import color_reach
from pourwright.shop.material import Plastic

# A cup that a home bench fills, and a shelf that a beginner can afford; estimates.
_USUAL_CUP_G = 170.0
_FEW = 6


def shelf_reach(world: World) -> ReachAnswer:
    """The shelf's colors at 10 mm over white, by whole steps for a usual cup.

    The first time it takes seconds; the store is free meanwhile.
    Raises: NoAnswer where there is no colorant or too many.
    """
    with world.bench() as bench:
        question = _question(bench)
    return _surveyed(question)


@functools.lru_cache(maxsize=4)
def _surveyed(question: ReachInput) -> ReachAnswer:
    """The survey of a shelf, kept: the same bottles make the same colors."""
    return color_reach(question)


def _question(bench: Bench) -> ReachInput:
    shelf = color_shelf(bench)
    bottles = tuple(b for b in shelf.bottles().values() if b.colorant.mixes)
    if not bottles:
        raise NoAnswer("no colorant on the shelf yet that mixes: add one with its color")
    if len(bottles) > MOST_BOTTLES:
        raise NoAnswer(
            f"{len(bottles)} colorants are more than the {MOST_BOTTLES} that can be surveyed"
        )
    plastics = bench.records.all(Plastic.key)
    return ReachInput(
        shelf=bottles,
        k=min(_FEW, len(bottles)),
        plastic=shelf.plastic(plastics[0].id if plastics else ""),
        plastic_g=_USUAL_CUP_G,
    )
