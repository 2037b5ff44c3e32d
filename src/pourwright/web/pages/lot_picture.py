"""The picture of a lot, as its look and its bait were when its sheet was frozen."""

from __future__ import annotations

from starlette.responses import Response

from pourwright.actions.as_it_was import Past, look_of_lot
from pourwright.actions.see_look import picture_input
from pourwright.web.look_glance import glance_of
from pourwright.web.look_picture import pixels_asked, png_of, sent
from pourwright.web.look_wish import LookWish
from pourwright.web.page import Page, Visit, number_in_address


def lot_picture(visit: Visit) -> Response:
    """A lot in the hand; `?px=` is how wide."""
    number = number_in_address(visit.part("number"), "number", "a sheet")
    with visit.world.reading() as bench:
        asked = look_of_lot(Past(bench), bench.sheets.get(number))
        pixels = pixels_asked(visit.request.query_params.get("px", ""))
        glance = glance_of(bench, LookWish(), pixels)
    return sent(png_of(picture_input(asked, glance)), visit.request)


LOT_PICTURE_PAGES = (Page("/lots/{number}/picture.png", lot_picture),)
