"""The best of the wish list within a budget."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.answered import answered
from pourwright.actions.port import Bench
from pourwright.plan.kit.kit_input import KitItem, Need, StarterKitInput
from pourwright.plan.kit.starter_kit import StarterKitAnswer
from pourwright.shop.wish import Wish


def wishes(bench: Bench) -> dict[str, Wish]:
    """What is on the wish list and not there yet, by id."""
    found = ((s.id, s.noun) for s in bench.records.all(Wish.key))
    return {key: noun for key, noun in found if isinstance(noun, Wish) and not noun.got}


def best_of(listed: dict[str, Wish], budget_money: float) -> StarterKitAnswer:
    """What to buy of these. What is there already, or gone from the list, is needed no more.

    Raises: BadInput for two wishes of one name, NoAnswer where the musts exceed the budget.
    """
    items = tuple(_item(wish, listed) for wish in listed.values())
    answer: StarterKitAnswer = answered(
        "shop.starter_kit", StarterKitInput(budget_money=budget_money, items=items)
    )
    return answer


@dataclass(frozen=True, slots=True)
class Slice:
    """A pick beside the others, in percent of the budget."""

    name: str
    at: float
    long: float


def spent(best: StarterKitAnswer, budget_money: float) -> tuple[Slice, ...]:
    """The picks side by side, as parts of the budget."""
    found: list[Slice] = []
    at = 0.0
    for pick in best.picks:
        long = 100 * pick.cost_money / budget_money
        found.append(Slice(pick.name, at, long))
        at += long
    return tuple(found)


def _item(wish: Wish, listed: dict[str, Wish]) -> KitItem:
    return KitItem(
        name=wish.name,
        cost_money=wish.price_money,
        worth=wish.worth,
        most=wish.most,
        must=wish.must,
        group=wish.group,
        needs=tuple(Need(item=listed[n.wish].name) for n in wish.needs if n.wish in listed),
    )
