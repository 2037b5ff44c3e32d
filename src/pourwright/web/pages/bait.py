"""One bait: its solid to turn in the hand, and what it comes to."""

from __future__ import annotations

from starlette.responses import Response

from pourwright.actions.see_solid import see_solid
from pourwright.base.errors import NotFound
from pourwright.shop.mold import Bait
from pourwright.web.bait_view import bait_context
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.solid_bytes import sent


def one_bait(visit: Visit) -> Show | Go:
    """The page of a bait; one that was taken off shows its history."""
    with visit.world.reading() as bench:
        stored = bench.records.get(Bait.key, visit.part("id"))
        if stored.retired:
            return Go(f"/records/{Bait.key}/{stored.id}/history")
        if not isinstance(stored.noun, Bait):
            raise NotFound("there is no such bait")
        asked = dict(visit.request.query_params)
        page = bait_context(bench, stored, stored.noun, asked, visit.settings)
    wrong = page.water is not None and page.water.form.problems
    return Show("bait/bait.html", page, 422 if wrong else 200)


def bait_solid(visit: Visit) -> Response:
    """The solid of a bait, for the script that draws it."""
    with visit.world.reading() as bench:
        return sent(see_solid(bench, visit.part("id")), visit.request)


BAIT_PAGES = (
    Page("/baits/{id}", one_bait),
    Page("/baits/{id}/solid", bait_solid),
)
