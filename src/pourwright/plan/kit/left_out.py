"""Why an item is not in the kit: only what is true of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pourwright.base.field import out
from pourwright.plan.kit.best_kit import most_worth_with, total
from pourwright.plan.kit.kit_input import CENTS, KitItem, StarterKitInput
from pourwright.shop.money import Money


@dataclass(frozen=True, slots=True)
class LeftOut:
    """An item that is not in the kit."""

    name: str = out("Item")
    why: str = out("Why, in words")
    short_money: float | None = out(
        "What it would need on top of the budget beside this kit; null where it cannot be beside it"
    )
    worth_with: int | None = out(
        "Most worth of a kit that has it; null where none keeps the budget"
    )


@dataclass(frozen=True, slots=True)
class Around:
    """A kit and what stood to choice."""

    inputs: StarterKitInput
    kit: tuple[int, ...]

    @property
    def worth(self) -> int:
        """Worth of the kit."""
        return total(self.kit, [i.worth for i in self.inputs.items])

    @property
    def left_cents(self) -> int:
        """What the kit leaves of the budget."""
        return self.inputs.budget_cents - total(self.kit, [i.cents for i in self.inputs.items])

    def has(self, name: str) -> bool:
        """Whether an item is in the kit."""
        return self.kit[self.inputs.place_of[name]] > 0

    def rival(self, item: KitItem) -> KitItem | None:
        """What was picked from an item's group instead of it."""
        same = (i for i in self.inputs.items if item.group and i.group == item.group)
        return next((i for i in same if i is not item and self.has(i.name)), None)

    def missing(self, item: KitItem) -> tuple[KitItem, ...]:
        """What an item needs, and what that needs in turn, as far as the kit lacks it."""
        found: list[KitItem] = [item]
        for it in found:
            for need in it.needs:
                other = self.inputs.items[self.inputs.place_of[need.item]]
                if not self.has(other.name) and other not in found:
                    found.append(other)
        return tuple(found[1:])


def left_out(inputs: StarterKitInput, kit: tuple[int, ...]) -> tuple[LeftOut, ...]:
    """Every item without a piece in the kit, and why."""
    around = Around(inputs, kit)
    return tuple(_why(around, i, item) for i, item in enumerate(inputs.items) if not kit[i])


def _why(around: Around, place: int, item: KitItem) -> LeftOut:
    worth_with = most_worth_with(around.inputs, place)
    blocked = _blocked(around, item)
    short = None if blocked else _short_cents(around, item)
    said = [blocked] if blocked else list(_too_dear(around, item, short or 0))
    said += _with_it(around, worth_with)
    if _poorer(around, item):
        said.append("it is worth less for its money than anything picked")
    if not item.worth:
        said = ["you gave it no worth"]
    return LeftOut(item.name, "; ".join(said), None if short is None else short / CENTS, worth_with)


def _blocked(around: Around, item: KitItem) -> str:
    """The pick that stands in its way; empty where none does."""
    rival = around.rival(item)
    if rival is not None:
        return f"only one of its group is bought, and that is {rival.name}"
    for need in around.missing(item):
        rival = around.rival(need)
        if rival is not None:
            return f"it needs {need.name}, and of that group {rival.name} was picked"
    return ""


def _short_cents(around: Around, item: KitItem) -> int:
    needed = item.cents + sum(i.cents for i in around.missing(item))
    return max(needed - around.left_cents, 0)


def _too_dear(around: Around, item: KitItem, short: int) -> Iterator[str]:
    if short:
        more = (Money.of(short) * "0.01").told
        needs = [i.name for i in around.missing(item)]
        yield f"would need {more} more" + (f" with {_listed(needs)}" if needs else "")


def _with_it(around: Around, worth_with: int | None) -> Iterator[str]:
    if worth_with is None:
        yield "no kit with it and the musts keeps the budget"
    elif worth_with < around.worth:
        yield f"the best kit with it is worth {worth_with}, this one {around.worth}"
    else:
        yield "a kit with it can be worth as much, but is not cheaper"


def _poorer(around: Around, item: KitItem) -> bool:
    """Whether everything picked gives more worth for its money."""
    picked = [i for i in around.inputs.items if around.has(i.name)]
    return bool(picked) and all(item.worth * i.cents < i.worth * item.cents for i in picked)


def _listed(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
