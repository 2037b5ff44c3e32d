"""The wish list: what could be bought, and what it would change."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from pourwright.base.errors import BadInput
from pourwright.base.field import flag, number, parts, reference, text
from pourwright.base.record import Record
from pourwright.shop.noun import Noun


@dataclass(frozen=True, slots=True, kw_only=True)
class WishNeed(Record):
    """Another thing on the list without which it is of no use."""

    wish: str = reference("From the list", refers="wish")


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish(Noun):
    """Something you might buy: its price, what it is worth to you, what it goes with."""

    key: ClassVar[str] = "wish"
    label: ClassVar[str] = "Wish"
    plural: ClassVar[str] = "Wish list"
    place: ClassVar[str] = "kit"

    price_money: float = number("Price of one, in whole cents", low=0.01, high=50_000)
    worth: int = number("Worth to you, in points of your own", low=0, high=1000)
    must: bool = flag("It has to be in the kit; of a group, one of them has to")
    most: int = number("Most pieces that make sense", low=1, high=20, default=1)
    group: str = text("Group of which only one is bought", most=40, default="")
    needs: tuple[WishNeed, ...] = parts("Of no use without", most=10)
    mold: str = reference("It is one more of this mold", refers="mold", default="")
    cup_ml: float | None = number(
        "It is a pouring cup of this brim volume", low=30, high=4000, default=None
    )
    injector_ml: float | None = number(
        "It is an injector of this full load", low=5, high=2000, default=None
    )
    minutes_share: float | None = number(
        "You timed it: minutes of a bait with it, as a share of the minutes now",
        low=0.01, high=5, default=None,
    )  # fmt: skip
    saved_each_money: float | None = number(
        "You reckoned it: what it saves on a bait besides time", low=-100, high=100, default=None
    )
    got: bool = flag("You have it now")
    note: str = text("Note", most=500, default="")

    def check(self) -> None:
        """Refuse a thing that is two things at once."""
        told = [n for n in ("mold", "cup_ml", "injector_ml") if getattr(self, n)]
        if len(told) > 1:
            raise BadInput(told[1], getattr(self, told[1]), "it can be one of these only")
