"""The price list: what is offered, in which pack and for how much."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from pourwright.base.errors import BadInput
from pourwright.base.field import number, parts, reference, text
from pourwright.base.record import Record
from pourwright.shop.check_scheme import refuse_bad_article_number
from pourwright.shop.noun import Noun


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceStep(Record):
    """A price of one pack from so many packs on."""

    from_packs: int = number("From so many packs", low=2, high=100_000)
    price_money: float = number("Price of one pack", low=0, high=10_000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer(Noun):
    """A bait, in one look or in any, that is sold in packs of so many."""

    key: ClassVar[str] = "offer"
    label: ClassVar[str] = "Price"
    plural: ClassVar[str] = "Price list"
    place: ClassVar[str] = "prices"

    bait: str = reference("Bait", refers="bait")
    look: str = reference("Look; left out, any", refers="look", default="")
    baits_each: int = number("Baits to a pack", low=1, high=200, default=8)
    packing: str = reference("Packing", refers="packing", default="")
    price_money: float = number("Price of one pack", low=0, high=10_000)
    steps: tuple[PriceStep, ...] = parts("Quantity prices", most=12)
    article_number: str = text("Article number you were issued, if any", most=20, default="")
    note: str = text("Note", most=500, default="")

    def check(self) -> None:
        """Refuse quantity prices out of order, and an article number that cannot be one."""
        refuse_odd_steps(self.price_money, self.steps, field="steps")
        if self.article_number:
            refuse_bad_article_number(self.article_number, field="article_number")

    def price_from(self, packs: int) -> float:
        """Price of a pack when so many are taken at once."""
        reached = [step.price_money for step in self.steps if step.from_packs <= packs]
        return reached[-1] if reached else self.price_money


def refuse_odd_steps(price_money: float, steps: tuple[PriceStep, ...], *, field: str) -> None:
    """Refuse steps that do not rise in packs, or that ask more of who takes more.

    Raises: BadInput naming the step.
    """
    packs, asked = 1, price_money
    for i, step in enumerate(steps):
        if step.from_packs <= packs:
            why = f"must be more than {packs}: put the steps in order, fewest packs first"
            raise BadInput(f"{field}[{i}].from_packs", step.from_packs, why)
        if step.price_money > asked:
            why = f"must be at most {asked:g}, the price of fewer packs"
            raise BadInput(f"{field}[{i}].price_money", step.price_money, why)
        packs, asked = step.from_packs, step.price_money
