"""What the maker has settled about the maker's tax, with an adviser where that is needed."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from pourwright.base.errors import BadInput
from pourwright.base.field import pick, share, text
from pourwright.shop.day import DAY, refuse_no_day
from pourwright.shop.noun import Noun
from pourwright.shop.sale import TaxWay


class TaxCountry(StrEnum):
    """Where the baits are made and sold from; nothing is reckoned until one is chosen."""

    NOT_CHOSEN = "not chosen yet"
    US = "United States"
    ELSEWHERE = "elsewhere: check locally"


@dataclass(frozen=True, slots=True, kw_only=True)
class TaxProfile(Noun):
    """The maker's tax of this bench; there is exactly one of these, and no figure without it."""

    key: ClassVar[str] = "tax_profile"
    label: ClassVar[str] = "Tax profile"
    plural: ClassVar[str] = "Tax profile"
    place: ClassVar[str] = "money"

    name: str = text("What you call it", most=60, default="Maker's tax")
    country: TaxCountry = pick("Country you make and sell in", default=TaxCountry.NOT_CHOSEN)
    tax_way: TaxWay = pick("How your prices hold the tax", default=TaxWay.INSIDE)
    registration: str = text(
        "Number of your registration for tax-free sales (Form 637), if you have one",
        most=40, default="", label="Registration",
    )  # fmt: skip
    registered_on: str = text(
        "Day from which that registration holds, such as 2026-04-01", pattern=f"({DAY})?",
        most=10, default="",
    )  # fmt: skip
    base_share: float = share(
        "Share of the price that is taxed; less than 100 % only as a licensed adviser told you",
        low=0.05, high=1, default=1, label="Taxed share",
    )  # fmt: skip
    base_adviser: str = text(
        "Licensed adviser who told you", most=80, default="", label="Adviser for that share"
    )
    base_since: str = text(
        "First day of sales for which that share holds, such as 2026-04-01", pattern=f"({DAY})?",
        most=10, default="", label="That share holds from",
    )  # fmt: skip
    base_channels: str = text(
        "Ways of selling it holds for, as your sales call them, with commas between",
        most=200, default="", label="That share holds for",
    )  # fmt: skip
    note: str = text("Note", most=500, default="")

    def check(self) -> None:
        """Refuse days that do not exist, and a smaller share that nobody answers for."""
        for name in ("registered_on", "base_since"):
            refuse_no_day(name, getattr(self, name))
        if self.registration and not self.registered_on:
            raise BadInput("registered_on", "", "give the day from which the registration holds")
        if self.base_share < 1:
            self._refuse_unanswered()

    def _refuse_unanswered(self) -> None:
        for name, why in (
            ("base_adviser", "a share below 1 needs the name of the adviser who told you"),
            ("base_since", "a share below 1 needs the first day for which it holds"),
            ("base_channels", "a share below 1 needs the ways of selling it holds for"),
        ):
            if not getattr(self, name).strip():
                raise BadInput(name, "", why)

    @property
    def reckons(self) -> bool:
        """Whether there are rules here to reckon by."""
        return self.country is TaxCountry.US

    def share_for(self, *, sold_on: str, channel: str) -> float:
        """Share of the price that is taxed in a sale of that day, sold that way."""
        named = {it.strip().casefold() for it in self.base_channels.split(",")} - {""}
        holds = self.base_share < 1 and self.base_since <= sold_on
        return self.base_share if holds and channel.strip().casefold() in named else 1.0
