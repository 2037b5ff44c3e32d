"""What the shelf can make."""

from __future__ import annotations

from pourwright.actions.port import Bench
from pourwright.actions.shelf_color import color_shelf
from pourwright.base.errors import NoAnswer
from pourwright.color.reach.answer import ReachAnswer
from pourwright.color.reach.question import ReachInput
from pourwright.color.reach.survey import color_reach
from pourwright.shop.material import Plastic

_MOST = 25
_USUAL_CUP_G = 170.0


def shelf_reach(bench: Bench) -> ReachAnswer:
    """The shelf's colors at 10 mm over white, by whole steps for a usual cup; takes seconds.

    Raises: NoAnswer where there is no colorant or there are too many.
    """
    shelf = color_shelf(bench)
    bottles = tuple(b for b in shelf.bottles().values() if b.colorant.mixes)
    if not bottles:
        raise NoAnswer("no colorant on the shelf yet that mixes: add one with its color")
    if len(bottles) > _MOST:
        raise NoAnswer(f"{len(bottles)} colorants are more than the {_MOST} that can be surveyed")
    plastics = bench.records.all(Plastic.key)
    return color_reach(
        ReachInput(
            shelf=bottles,
            k=min(6, len(bottles)),
            plastic=shelf.plastic(plastics[0].id if plastics else ""),
            plastic_g=_USUAL_CUP_G,
        )
    )
