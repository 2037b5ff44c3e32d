"""The picture of a look on a page: its address, and its bytes, kept while it stays the same."""

from __future__ import annotations

import functools

from starlette.requests import Request
from starlette.responses import Response

from pourwright.base.errors import BadInput
from pourwright.base.units import UNITS
from pourwright.forecast.picture.picture import look_picture
from pourwright.forecast.picture.picture_input import TALL, PictureInput
from pourwright.web.form import Typed
from pourwright.web.look_wish import LookWish, Where, query
from pourwright.web.marked_answer import marked
from pourwright.web.page import number_in_address
from pourwright.web.show import Settings, exactly

LEAST_PX, MOST_PX = 96, 1280
FULL_PX, SMALL_PX = 640, 256
# A page asks for the same few again and again; each takes some tens of kilobytes.
KEPT = 256


def picture_address(look_id: str, typed: Typed, pixels: int, *, version: int = 0) -> str:
    """Where a look's picture is found."""
    older = f"&version={version}" if version else ""
    return f"/looks/{look_id}/picture.png?{query(typed)}&px={pixels}{older}"


def rows_of(pixels: int) -> int:
    """How tall a picture of that width is."""
    return round(pixels * TALL)


def pixels_asked(text: str) -> int:
    """The width an address asks for. Raises: BadInput."""
    if not text:
        return FULL_PX
    pixels = number_in_address(text, "px", "pixels from left to right")
    if not LEAST_PX <= pixels <= MOST_PX:
        raise BadInput("px", pixels, f"must lie between {LEAST_PX} and {MOST_PX}")
    return pixels


def picture_words(look: str, bait: str, wish: LookWish, settings: Settings) -> str:
    """What a picture shows, and in which light."""
    return f"{look} in {bait}, {_place_words(wish, settings)}, its {wish.side.value}"


def _place_words(wish: LookWish, settings: Settings) -> str:
    if wish.where is Where.WATER:
        deep, away = (exactly(m, UNITS["m"], settings) for m in (wish.depth_m, wish.distance_m))
        return f"{wish.where.value} ({wish.water.value}), {deep} down, from {away}"
    sheet = f" on a {wish.ground.value}" if wish.where is Where.HAND else ""
    return f"{wish.where.value}{sheet}, by {wish.lamp.value}"


@functools.lru_cache(maxsize=KEPT)
def png_of(asked: PictureInput) -> bytes:
    """A picture as a PNG file. Raises: as the picture."""
    return look_picture(asked).picture.png()


def sent(png: bytes, request: Request) -> Response:
    """The picture, or word that the browser has it already."""
    return marked(png, request, "image/png", press=False)
