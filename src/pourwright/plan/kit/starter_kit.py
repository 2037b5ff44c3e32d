"""What to buy first within a budget."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.calc import calculation
from pourwright.base.errors import NoAnswer
from pourwright.base.field import out
from pourwright.base.source import Basis, Source, memory
from pourwright.plan.kit.best_kit import best_kit, cheapest_kit, total
from pourwright.plan.kit.kit_input import CENTS, StarterKitInput
from pourwright.plan.kit.left_out import LeftOut, left_out
from pourwright.shop.money import Money

SCORES = "Worth is your own score: it is summed, so a second piece counts as much as the first."
CHOSEN = (
    "No kit within the budget is worth more; of those worth as much none is cheaper, and of those "
    "as cheap none has fewer pieces."
)


@dataclass(frozen=True, slots=True)
class Pick:
    """Something to buy."""

    name: str = out("Item")
    pieces: int = out("How many")
    cost_money: float = out("Price of all of them")
    worth: int = out("Worth of all of them")


@dataclass(frozen=True, slots=True)
class StarterKitAnswer:
    """The best kit, and what stayed out."""

    picks: tuple[Pick, ...] = out("What to buy, in the order of the list")
    cost_money: float = out("What it costs")
    left_money: float = out("What is left of the budget")
    worth: int = out("Its worth, in the points given")
    left_out: tuple[LeftOut, ...] = out("What stayed out, and why")
    notes: tuple[str, ...] = out("How it was chosen")


@calculation(
    "shop.starter_kit",
    purpose="what to buy first within a budget",
    sources=(
        memory("bounded knapsack: Martello and Toth, Knapsack Problems (1990), ch. 3"),
        Source(Basis.LIBRARY, "HiGHS through scipy.optimize.milp"),
    ),
    example={
        "budget_money": 120,
        "items": [
            {"name": "Plastic, a quart", "cost_money": 18, "worth": 30, "must": True},
            {"name": "Two-cavity mold", "cost_money": 40, "worth": 40, "must": True,
             "group": "mold", "needs": [{"item": "Injector"}]},
            {"name": "Open pour mold", "cost_money": 22, "worth": 20, "group": "mold"},
            {"name": "Injector", "cost_money": 38, "worth": 10},
            {"name": "Infrared thermometer", "cost_money": 21, "worth": 25},
            {"name": "Colorant", "cost_money": 4.5, "worth": 6, "most": 4},
        ],
    },
)  # fmt: skip
def starter_kit(inputs: StarterKitInput) -> StarterKitAnswer:
    """Most worth within the budget; of equal kits the cheapest, then that of fewest pieces.

    Proven best by branch and bound over whole pieces, with prices in whole cents.
    Raises: BadInput for items that cannot be told apart or needs not on the list, NoAnswer where
    the musts cannot go together or cost more than the budget.
    """
    kit = best_kit(inputs)
    if kit is None:
        raise NoAnswer(_why_none(inputs))
    picks = tuple(
        Pick(item.name, pieces, pieces * item.cents / CENTS, pieces * item.worth)
        for item, pieces in zip(inputs.items, kit, strict=True)
        if pieces
    )
    spent = total(kit, [i.cents for i in inputs.items])
    return StarterKitAnswer(
        picks,
        spent / CENTS,
        (inputs.budget_cents - spent) / CENTS,
        sum(p.worth for p in picks),
        left_out(inputs, kit),
        (CHOSEN, SCORES),
    )


def _why_none(inputs: StarterKitInput) -> str:
    cheapest = cheapest_kit(inputs)
    if cheapest is None:
        return (
            "what has to be in cannot go together: two of one group are needed, or a need is out "
            "of reach"
        )
    cost = total(cheapest, [i.cents for i in inputs.items])
    named = ", ".join(i.name for i, n in zip(inputs.items, cheapest, strict=True) if n)
    least, over = ((Money.of(c) * "0.01").told for c in (cost, cost - inputs.budget_cents))
    return f"what has to be in costs {least} at least ({named}): {over} more than the budget"
