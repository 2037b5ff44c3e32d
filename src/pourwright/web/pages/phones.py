"""The laptop's page of phones: pair one, see them all, revoke one."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.responses import JSONResponse, Response

from pourwright.actions.pair_phone import Phone, phone_named, phones, revoke_phone
from pourwright.web.laptop_only import at_the_laptop
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.pages.record_history import readable
from pourwright.web.pairing import Fate, PhoneLink, pairing_of

ADDRESS = "/phones"
MOST_DIGITS = 2
PAIRED_HERE = "phones are paired and revoked on the laptop itself, at its own address"
OVER = {
    Fate.USED: "A phone has used the code.",
    Fate.EXPIRED: "The code ran out unused.",
}


@dataclass(frozen=True, slots=True)
class Choice:
    """An address the phone may use; `here` marks the one in the code."""

    address: str
    link: str
    here: bool


@dataclass(frozen=True, slots=True)
class ShownCode:
    """A code to scan: the address in it, as words and as SVG, and how long it is good."""

    address: str
    svg: str
    left_s: int

    @property
    def left(self) -> str:
        """The time left as `m:ss`."""
        return f"{self.left_s // 60}:{self.left_s % 60:02}"


@dataclass(frozen=True, slots=True)
class Row:
    """A device in the list."""

    name: str
    paired: str
    revoked: str
    revoke: str


@dataclass(frozen=True, slots=True)
class PhonesContext:
    """Everything about phones; without a `link` the page says how to start with one."""

    title: str
    link: PhoneLink | None
    choices: tuple[Choice, ...]
    code: ShownCode | None
    make: str
    over: str
    rows: tuple[Row, ...]
    paired: int


@dataclass(frozen=True, slots=True)
class RevokeContext:
    """The question before a phone is shut out."""

    title: str
    name: str
    address: str


def show_phones(visit: Visit) -> Show:
    """The code that stands, the devices, and what each connection can do."""
    pairing = pairing_of(visit.request)
    known = _phones(visit)
    choices = _choices(pairing.link, _wanted(visit))
    over = "" if pairing.codes.standing() else OVER.get(pairing.codes.newest(), "")
    context = PhonesContext(
        title="Phones",
        link=pairing.link,
        choices=choices,
        code=_code(visit, choices),
        make=f"{ADDRESS}/code{_query(visit)}",
        over=over,
        rows=tuple(map(_row, reversed(known))),
        paired=len(known),
    )
    return Show("phone/phones.html", context)


def make_code(visit: Visit) -> Go:
    """Make a code; a second one takes the place of the first."""
    pairing = pairing_of(visit.request)
    if pairing.link:
        pairing.codes.mint()
    return Go(f"{ADDRESS}{_query(visit)}")


def code_state(visit: Visit) -> Response:
    """Whether the code still stands and how many phones came, for the page that waits."""
    standing = pairing_of(visit.request).codes.standing()
    return JSONResponse(
        {"left_s": standing[1] if standing else 0, "paired": len(_phones(visit))},
    )


def revoke(visit: Visit) -> Show | Go:
    """Ask, and on the answer shut the phone out."""
    key = visit.part("id")
    if visit.posted:
        revoke_phone(visit.world, key)
        return Go(ADDRESS)
    with visit.world.reading() as bench:
        phone = phone_named(bench, key)
    if phone.revoked_at:
        return Go(ADDRESS)
    context = RevokeContext(f"Revoke {phone.name}?", phone.name, f"{ADDRESS}/{key}/revoke")
    return Show("phone/revoke.html", context)


def _phones(visit: Visit) -> tuple[Phone, ...]:
    with visit.world.reading() as bench:
        return phones(bench)


def _wanted(visit: Visit) -> int:
    """The place in the list of the address that the person wants in the code."""
    text = visit.request.query_params.get("at", "")
    return int(text) if text.isascii() and text.isdigit() and len(text) <= MOST_DIGITS else 0


def _query(visit: Visit) -> str:
    wanted = _wanted(visit)
    return f"?at={wanted}" if wanted else ""


def _choices(link: PhoneLink | None, wanted: int) -> tuple[Choice, ...]:
    addresses = link.addresses if link else ()
    here = wanted if wanted < len(addresses) else 0
    return tuple(
        Choice(address, f"{ADDRESS}?at={n}", n == here) for n, address in enumerate(addresses)
    )


def _code(visit: Visit, choices: tuple[Choice, ...]) -> ShownCode | None:
    standing = pairing_of(visit.request).codes.standing()
    if standing is None or not choices:
        return None
    text, left_s = standing
    chosen = next(it.address for it in choices if it.here)
    address = f"{chosen}/pair/{text}"
    return ShownCode(address, visit.world.printer.qr_svg(address), left_s)


def _row(phone: Phone) -> Row:
    revoked = readable(phone.revoked_at) if phone.revoked_at else ""
    address = "" if revoked else f"{ADDRESS}/{phone.id}/revoke"
    return Row(phone.name, readable(phone.paired_at), revoked, address)


PHONES_PAGES = (
    Page(ADDRESS, at_the_laptop(show_phones, PAIRED_HERE)),
    Page(f"{ADDRESS}/code", at_the_laptop(code_state, PAIRED_HERE)),
    Page(f"{ADDRESS}/code", at_the_laptop(make_code, PAIRED_HERE), ("POST",)),
    Page(f"{ADDRESS}/{{id}}/revoke", at_the_laptop(revoke, PAIRED_HERE), ("GET", "POST")),
)
