"""The picture of a look as bytes: at once, or the finest one in the background."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping

from starlette.responses import JSONResponse, Response

from pourwright.actions.port import Progress
from pourwright.base.record import to_json
from pourwright.forecast.picture.picture import look_picture
from pourwright.web.look_asked import picture_asked
from pourwright.web.look_picture import MOST_PX, png_of, sent
from pourwright.web.page import Page, Visit


def picture(visit: Visit) -> Response:
    """A look in a bait."""
    return sent(png_of(picture_asked(visit).picture), visit.request)


def fine_picture(visit: Visit) -> Response:
    """Draw the finest picture in the background; once the job is done it is at hand."""
    found = picture_asked(visit)
    asked = dataclasses.replace(found.picture, pixels=MOST_PX)

    def work(progress: Progress) -> Mapping[str, object]:
        progress.at(0.0)
        png_of(asked)
        return {}

    # The file of a shape has no JSON; its bait stands in for it.
    names = [f.name for f in dataclasses.fields(asked) if f.name != "file"]
    told = {name: to_json(getattr(asked, name)) for name in names}
    told["bait"] = to_json(found.bait)
    state = visit.world.jobs.start(look_picture.name, told, work)
    return JSONResponse({"job": state.key}, status_code=202)


LOOK_PICTURE_PAGES = (
    Page("/looks/{id}/picture.png", picture, ("GET", "POST")),
    Page("/looks/{id}/picture/fine", fine_picture, ("POST",)),
)
