"""The picture of a look on a page: its address, and its bytes, kept while it stays the same."""

from __future__ import annotations

import functools
import hashlib

from starlette.requests import Request
from starlette.responses import Response

from pourwright.base.errors import BadInput
from pourwright.forecast.picture.picture import look_picture
from pourwright.forecast.picture.picture_input import PictureInput
from pourwright.web.form import Typed
from pourwright.web.look_wish import LookWish, query
from pourwright.web.page import number_in_address

LEAST_PX, MOST_PX = 96, 1280
FULL_PX, SMALL_PX = 640, 256
# A picture is so tall as a share of its width.
TALL = 0.4
# A page asks for the same few again and again; each takes some tens of kilobytes.
KEPT = 256
NOT_MODIFIED = 304


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


def picture_words(look: str, bait: str, wish: LookWish) -> str:
    """What a picture shows."""
    return f"{look} in {bait}, {wish.where.value}, its {wish.side.value}"


@functools.lru_cache(maxsize=KEPT)
def png_of(asked: PictureInput) -> bytes:
    """A picture as a PNG file. Raises: as the picture."""
    return look_picture(asked).picture.png()


def sent(png: bytes, request: Request) -> Response:
    """The picture, or word that the browser has it already."""
    mark = f'"{hashlib.sha256(png).hexdigest()[:32]}"'
    headers = {"etag": mark, "cache-control": "private, no-cache"}
    if mark in request.headers.get("if-none-match", ""):
        return Response(status_code=NOT_MODIFIED, headers=headers)
    return Response(png, headers=headers, media_type="image/png")
