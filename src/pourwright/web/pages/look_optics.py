"""What the browser needs to draw a look itself: its optics, and the tables of the color engine."""

from __future__ import annotations

import functools
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response

from pourwright.actions.look_to_fish import thick_of
from pourwright.base.errors import NotFound
from pourwright.forecast.picture.picture import scene_of
from pourwright.forecast.picture.picture_input import PictureInput
from pourwright.web import look_optics, slab_bytes
from pourwright.web.look_asked import picture_asked
from pourwright.web.marked_answer import marked
from pourwright.web.page import Page, Visit

KEPT = 16


def optics(visit: Visit) -> Response:
    """A look in a bait, in its light; the bench is closed again before it is reckoned."""
    found = picture_asked(visit)
    with visit.world.reading() as bench:
        thick_mm = thick_of(bench, found.bait)
    solid = f"/baits/{quote(found.bait_id)}/solid"
    return _sent(_optics(found.picture, solid, thick_mm), visit.request)


@functools.lru_cache(maxsize=KEPT)
def _optics(asked: PictureInput, solid: str, thick_mm: float) -> bytes:
    return look_optics.packed(scene_of(asked), asked, {"solid": solid, "thickestMm": thick_mm})


def slab(visit: Visit) -> Response:
    """One table of slabs."""
    name = visit.part("name")
    if name not in slab_bytes.TABLES:
        raise NotFound(f"there is no table {name!r}")
    return _sent(_table(name), visit.request)


@functools.cache
def _table(name: str) -> bytes:
    return slab_bytes.packed(name)


def _sent(plain: bytes, request: Request) -> Response:
    return marked(plain, request, "application/octet-stream", press=True)


LOOK_OPTICS_PAGES = (
    Page("/looks/{id}/optics", optics, ("GET", "POST")),
    Page("/slabs/{name}", slab),
)
