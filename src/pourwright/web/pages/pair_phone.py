"""What a phone sees before it is paired: the pad that pairs it, and the certificate to trust."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from pourwright.actions.pair_phone import LONGEST_NAME, checked_name, free_name, pair_phone
from pourwright.base.errors import BadInput, NotFound
from pourwright.web.guard import LAPTOP, Door
from pourwright.web.page import Page, Show, Visit
from pourwright.web.pairing import TRIES_S, Fate, PhoneLink, new_secret, pairing_of
from pourwright.web.refusal import Refusal, refused

# The longest a browser keeps a cookie: RFC 6265bis section 5.5, 400 days.
COOKIE_S = 400 * 24 * 3600
# What passes in the clear can be copied, so it is good for a day's pouring only.
PLAIN_COOKIE_S = 12 * 3600
SEE_OTHER = 303
AGAIN = "on the laptop open Workplace, then Phones, and scan a fresh code"
FATES = {
    Fate.UNKNOWN: Refusal(404, "code_unknown", f"the bench knows no such code: {AGAIN}"),
    Fate.USED: Refusal(410, "code_over", f"this code has paired a phone already: {AGAIN}"),
    Fate.EXPIRED: Refusal(410, "code_over", f"this code was good for five minutes: {AGAIN}"),
    Fate.REPLACED: Refusal(410, "code_over", f"the laptop has made a newer code: {AGAIN}"),
}
PHONE_ONLY = Refusal(
    403, "phone_only", "this address is for the phone: open it there, by scanning the code"
)


@dataclass(frozen=True, slots=True)
class PairContext:
    """The form that pairs a phone."""

    title: str
    address: str
    name: str
    longest: int
    problem: str
    secure: bool


@dataclass(frozen=True, slots=True)
class TrustContext:
    """How to trust the certificate; `fingerprint` is shown on the laptop only, to compare with."""

    title: str
    link: PhoneLink | None
    fingerprint: str
    back: str


def pair(visit: Visit) -> Show | Response:
    """Show the pad, so that a preview of the link uses nothing up; a tap on it pairs."""
    request = visit.request
    if request.state.device == LAPTOP:
        return _refused(request, PHONE_ONLY)
    pairing = pairing_of(request)
    peer = request.client.host if request.client else ""
    wait_s = pairing.tries.wait_s(peer)
    if wait_s:
        return _wait(request, wait_s)
    code = visit.part("code")
    fate = pairing.codes.fate(code)
    if fate is Fate.GOOD and visit.posted:
        name = dict(visit.sent).get("name", "")
        try:
            checked_name(name)
        except BadInput as error:
            return _form(visit, name, error.why)
        fate = pairing.codes.redeem(code)
        if fate is Fate.GOOD:
            return _welcomed(visit, name)
    if fate is Fate.GOOD:
        with visit.world.reading() as bench:
            return _form(visit, free_name(bench), "")
    pairing.tries.note(peer)
    return _refused(request, FATES[fate])


def trust(visit: Visit) -> Show:
    """The steps to trust the bench's certificate."""
    link = pairing_of(visit.request).link
    device = visit.request.state.device
    shown = link.authority_print if link and device == LAPTOP else ""
    back = "/phones" if device == LAPTOP else "/workplace" if device else ""
    return Show("phone/trust.html", TrustContext("Trust this bench", link, shown, back))


def certificate(visit: Visit) -> Response:
    """The public certificate of the bench's authority, as a file a system offers to trust.

    Raises: NotFound where none is in use.
    """
    link = pairing_of(visit.request).link
    if not (link and link.certificate):
        raise NotFound("no certificate is in use: it comes with a start with --phone")
    return Response(
        link.certificate,
        media_type="application/x-x509-ca-cert",
        headers={"content-disposition": 'attachment; filename="pourwright-bench.crt"'},
    )


def _form(visit: Visit, name: str, problem: str) -> Show:
    door: Door = visit.request.app.state.door
    context = PairContext(
        title="Pair this phone",
        address=visit.request.url.path,
        name=name,
        longest=LONGEST_NAME,
        problem=problem,
        secure=door.scheme == "https",
    )
    return Show("phone/pair.html", context, status=422 if problem else 200)


def _welcomed(visit: Visit, name: str) -> Response:
    door: Door = visit.request.app.state.door
    secret = new_secret()
    pair_phone(visit.world, name, secret)
    answer = RedirectResponse("/", status_code=SEE_OTHER)
    secure = door.scheme == "https"
    answer.set_cookie(
        door.cookie,
        secret,
        max_age=COOKIE_S if secure else PLAIN_COOKIE_S,
        path="/",
        secure=secure,
        httponly=True,
        samesite="lax",
    )
    return answer


def _refused(request: Request, refusal: Refusal) -> Response:
    return refused(refusal, request.headers, request.url.path)


def _wait(request: Request, wait_s: int) -> Response:
    """Too many wrong codes (RFC 6585 section 4, RFC 9110 section 10.2.3)."""
    why = f"ten wrong codes within {TRIES_S:.0f} s: wait {wait_s} s, then scan a fresh code"
    answer = _refused(request, Refusal(429, "too_many_tries", why))
    answer.headers["retry-after"] = str(wait_s)
    return answer


PAIR_PAGES = (
    Page("/pair/{code}", pair, ("GET", "POST")),
    Page("/phones/trust", trust),
    Page("/phones/certificate", certificate),
)
