"""Things that could be bought: what they cost, what they are worth, what goes with what."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.errors import BadInput
from pourwright.base.field import flag, number, parts, text
from pourwright.base.record import Record
from pourwright.shop.money import as_typed

CENTS = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class Need(Record):
    """Something that has to be in the kit too."""

    item: str = text("Name of the item", most=60)


@dataclass(frozen=True, slots=True, kw_only=True)
class KitItem(Record):
    """Something that could be bought."""

    name: str = text("Item", most=60)
    cost_money: float = number("Price of one", low=0, high=50_000)
    worth: int = number("What one is worth to you, in points of your own", low=0, high=1000)
    most: int = number("Most pieces that make sense", low=1, high=20, default=1)
    must: bool = flag("It has to be in; of a group, one of them has to")
    group: str = text("Group of which only one is bought", most=40, default="")
    needs: tuple[Need, ...] = parts("What it is of no use without", most=10)

    @property
    def cents(self) -> int:
        """Price of one in whole cents."""
        return int(as_typed(self.cost_money) * CENTS)


@dataclass(frozen=True, slots=True, kw_only=True)
class StarterKitInput(Record):
    """A budget and what it could buy."""

    budget_money: float = number("What may be spent", low=0, high=1_000_000)
    items: tuple[KitItem, ...] = parts("What could be bought", least=1, most=60)

    @property
    def budget_cents(self) -> int:
        """The budget in whole cents."""
        return int(as_typed(self.budget_money) * CENTS)

    @property
    def place_of(self) -> dict[str, int]:
        """Where an item stands in the list, by name."""
        return {item.name: i for i, item in enumerate(self.items)}

    def check(self) -> None:
        """Refuse parts of a cent, two items of one name, and needs that cannot be met."""
        _refuse_odd_cents(self.budget_money, "budget_money")
        names: set[str] = set()
        for i, item in enumerate(self.items):
            _refuse_odd_cents(item.cost_money, f"items[{i}].cost_money")
            if item.name in names:
                raise BadInput(f"items[{i}].name", item.name, "stands on the list twice")
            names.add(item.name)
        for i, item in enumerate(self.items):
            for j, need in enumerate(item.needs):
                _refuse_odd_need(item, need, names, f"items[{i}].needs[{j}].item")


def _refuse_odd_cents(amount: float, field: str) -> None:
    if (as_typed(amount) * CENTS).denominator != 1:
        raise BadInput(field, amount, "must be in whole cents")


def _refuse_odd_need(item: KitItem, need: Need, names: set[str], field: str) -> None:
    if need.item not in names:
        raise BadInput(field, need.item, "is not on the list of items")
    if need.item == item.name:
        raise BadInput(field, need.item, "cannot need itself")
