"""Pages that only the laptop itself may open."""

from __future__ import annotations

from starlette.responses import Response

from pourwright.web.guard import LAPTOP
from pourwright.web.page import Go, Show, View, Visit
from pourwright.web.refusal import Refusal, refused


def at_the_laptop(view: View, why: str) -> View:
    """The view for the laptop's own door; the other one gets `why` it is not for phones."""

    def guarded(visit: Visit) -> Show | Go | Response:
        if visit.request.state.device == LAPTOP:
            return view(visit)
        refusal = Refusal(403, "laptop_only", why)
        return refused(refusal, visit.request.headers, visit.request.url.path)

    return guarded
