"""Every refusal in one shape: JSON for programs, the same words on a page for people."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from http import HTTPStatus

from starlette.datastructures import Headers
from starlette.exceptions import HTTPException
from starlette.responses import HTMLResponse, JSONResponse, Response

from pourwright.base.errors import PourwrightError
from pourwright.web.template import rendered

OUR_BUG = "our_bug"


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why a request was not answered; `more` holds the field, value and reason of a bad input."""

    status: int
    code: str
    message: str
    more: Mapping[str, object] = field(default_factory=dict)

    def as_json(self) -> dict[str, object]:
        """The one shape in which any face reports an error."""
        return {"error": self.code, "message": self.message} | dict(self.more)

    @property
    def title(self) -> str:
        """Its heading on a page."""
        return TITLES.get(self.code, "That did not work")


TITLES = {
    "not_found": "Nothing here",
    "conflict": "It changed meanwhile",
    "bad_input": "Something does not fit",
    "no_answer": "No answer exists",
    "not_paired": "Not paired",
    "code_unknown": "No such code",
    "code_over": "That code is over",
    "too_many_tries": "Too many tries",
    "laptop_only": "Only on the laptop",
    "phone_only": "Only on the phone",
    OUR_BUG: "Our mistake",
}


def refusal_of(error: Exception) -> Refusal:
    """The refusal an error stands for; anything not raised on purpose is our bug."""
    if isinstance(error, PourwrightError):
        shape = error.as_json()
        code, message = str(shape.pop("error")), str(shape.pop("message"))
        return Refusal(error.http_status, code, message, shape)
    if isinstance(error, HTTPException):
        return _of_http(error)
    why = "something went wrong inside the program; nothing was changed by it"
    return Refusal(500, OUR_BUG, why)


def refused(refusal: Refusal, headers: Headers, path: str) -> Response:
    """The answer to a request that was refused: a page where a browser asked for one."""
    if "text/html" in headers.get("accept", "") and not path.startswith("/api/"):
        html = rendered("refusal.html", {"refusal": refusal})
        return HTMLResponse(html, status_code=refusal.status)
    return JSONResponse(refusal.as_json(), status_code=refusal.status)


def _of_http(error: HTTPException) -> Refusal:
    known = {404: ("not_found", "there is no such page"), 405: ("not_allowed", "not done that way")}
    phrase = HTTPStatus(error.status_code).phrase
    code, why = known.get(error.status_code, (phrase.lower().replace(" ", "_"), error.detail))
    return Refusal(error.status_code, code, why)
