"""What this shelf can make: how many colors, which not, and a picture."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.shelf_reach import shelf_reach
from pourwright.base.errors import PourwrightError
from pourwright.color.reach.answer import ReachAnswer
from pourwright.web.page import Page, Show, Visit


@dataclass(frozen=True, slots=True)
class ReachContext:
    """The page."""

    title: str
    answer: ReachAnswer | None
    refused: str


def reach_page(visit: Visit) -> Show:
    """Survey the shelf."""
    try:
        return Show("look/reach.html", ReachContext("Reach", shelf_reach(visit.world), ""))
    except PourwrightError as error:
        return Show("look/reach.html", ReachContext("Reach", None, str(error)))


REACH_PAGES = (Page("/reach", reach_page),)
