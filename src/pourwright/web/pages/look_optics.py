"""What the browser needs to draw a look itself: its optics, and the tables of the color engine."""

from __future__ import annotations

import functools
import gzip
import hashlib
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response

from pourwright.actions.look_to_fish import thick_of
from pourwright.base.errors import NotFound
from pourwright.forecast.picture.picture import scene_of
from pourwright.forecast.picture.picture_input import PictureInput
from pourwright.web import look_optics, slab_bytes
from pourwright.web.look_asked import picture_asked
from pourwright.web.page import Page, Visit

# Fast, and within a few percent of the smallest.
EFFORT = 5
NOT_MODIFIED = 304
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
    """The bytes, pressed where the browser takes that, or word that it has them already."""
    mark = f'"{hashlib.sha256(plain).hexdigest()[:32]}"'
    headers = {"etag": mark, "cache-control": "private, no-cache", "vary": "accept-encoding"}
    if mark in request.headers.get("if-none-match", ""):
        return Response(status_code=NOT_MODIFIED, headers=headers)
    if "gzip" not in request.headers.get("accept-encoding", ""):
        return Response(plain, headers=headers, media_type="application/octet-stream")
    headers["content-encoding"] = "gzip"
    pressed = gzip.compress(plain, EFFORT, mtime=0)
    return Response(pressed, headers=headers, media_type="application/octet-stream")


LOOK_OPTICS_PAGES = (
    Page("/looks/{id}/optics", optics, ("GET", "POST")),
    Page("/slabs/{name}", slab),
)
