"""Find what carries a code that was scanned or typed; a mistyped one finds nothing."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.offered import offers
from pourwright.actions.port import Bench
from pourwright.base.errors import BadInput, NotFound
from pourwright.shop.check_scheme import (
    ARTICLE_LENGTHS,
    SCHEMES,
    CheckScheme,
    Scheme,
    refuse_bad_article_number,
)
from pourwright.shop.stock_lot import Held

_FIELD = "code"
# What people put between the characters of a code.
_BETWEEN = str.maketrans("", "", " -.\N{NO-BREAK SPACE}")


@dataclass(frozen=True, slots=True)
class Found:
    """A lot, or the id of the price that carries an article number."""

    lot: Held | None = None
    offer: str = ""


def find_lot(bench: Bench, typed: str) -> Found:
    """What carries a code; spaces, dashes and small letters are no matter.

    Raises: BadInput for a code whose check does not fit, NotFound for one that nothing carries.
    """
    code = typed.translate(_BETWEEN).upper()
    if not code:
        raise BadInput(_FIELD, typed, "is empty: scan or type the code of a lot")
    if code.isascii() and code.isdigit() and len(code) in ARTICLE_LENGTHS:
        return Found(offer=_offer(bench, code))
    _refuse_mistyped(SCHEMES[Scheme.MOD_37_36], code)
    return Found(lot=bench.stock.lot(code))


def _offer(bench: Bench, number: str) -> str:
    refuse_bad_article_number(number, field=_FIELD)
    for key, offer in offers(bench):
        if offer.article_number == number:
            return key
    raise NotFound(f"no pack on the price list carries the article number {number}")


def _refuse_mistyped(scheme: CheckScheme, code: str) -> None:
    body, given = scheme.parted(code)
    wanted = scheme.check_of(body)
    if given != wanted:
        raise BadInput(
            _FIELD, code,
            f"is mistyped or misread: its check character is {given}, and {body} asks for "
            f"{wanted}. Which character is wrong cannot be told: read the label again",
        )  # fmt: skip
