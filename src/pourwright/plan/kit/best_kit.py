"""The best kit within a budget, exactly: most worth, then least money, then fewest pieces."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import NoAnswer
from pourwright.plan.kit.kit_input import KitItem, StarterKitInput

# Every coefficient is whole: half a point or half a cent parts one sum from the next.
HALF = 0.5
LONGEST_S = 20.0
FOUND, NONE_EXISTS = 0, 2


@dataclass(frozen=True, slots=True)
class Row:
    """A sum over the pieces and the picks, within limits."""

    weights: Array
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Rules:
    """What every kit keeps. A kit is its pieces, one number an item, then its picks, 0 or 1."""

    items: tuple[KitItem, ...]
    rows: tuple[Row, ...]

    def per_piece(self, values: Sequence[int]) -> Array:
        """Weights that count these values once a piece."""
        return np.concatenate([np.array(values, dtype=float), np.zeros(len(self.items))])

    def also(self, values: Sequence[int], *, low: float = -np.inf, high: float = np.inf) -> Rules:
        """With one more limit on a sum over the pieces."""
        return replace(self, rows=(*self.rows, Row(self.per_piece(values), low, high)))


def rules_of(inputs: StarterKitInput) -> Rules:
    """Pieces and picks go together, groups give one, musts are in, needs are met."""
    items, count = inputs.items, len(inputs.items)
    rows: list[Row] = []

    def row(terms: dict[int, float], low: float, high: float) -> None:
        weights = np.zeros(2 * count)
        for place, weight in terms.items():
            weights[place] = weight
        rows.append(Row(weights, low, high))

    for i, item in enumerate(items):
        row({i: 1, count + i: -item.most}, -np.inf, 0)
        row({i: 1, count + i: -1}, 0, np.inf)
        if item.must and not item.group:
            row({count + i: 1}, 1, 1)
        for need in item.needs:
            row({count + inputs.place_of[need.item]: 1, count + i: -1}, 0, np.inf)
    for group in dict.fromkeys(item.group for item in items if item.group):
        members = [i for i, item in enumerate(items) if item.group == group]
        wanted = any(items[i].must for i in members)
        row({count + i: 1 for i in members}, 1 if wanted else 0, 1)
    return Rules(items, tuple(rows))


def best_kit(inputs: StarterKitInput) -> tuple[int, ...] | None:
    """Pieces of each item in the best kit; none where no kit keeps the rules and the budget."""
    costs, worths = _costs(inputs), _worths(inputs)
    rules = _affordable(inputs)
    kit = _least(rules, [-worth for worth in worths])
    if kit is None:
        return None
    rules = rules.also(worths, low=total(kit, worths) - HALF)
    kit = _least(rules, costs) or kit
    rules = rules.also(costs, high=total(kit, costs) + HALF)
    return _least(rules, [1] * len(costs)) or kit


def most_worth_with(inputs: StarterKitInput, place: int) -> int | None:
    """Worth of the best kit that has a piece of the item at that place; none where none can."""
    piece = [int(i == place) for i in range(len(inputs.items))]
    kit = _least(_affordable(inputs).also(piece, low=HALF), [-w for w in _worths(inputs)])
    return None if kit is None else total(kit, _worths(inputs))


def cheapest_kit(inputs: StarterKitInput) -> tuple[int, ...] | None:
    """Pieces of the cheapest kit with the musts and what they need, whatever the budget."""
    return _least(rules_of(inputs), _costs(inputs))


def total(kit: tuple[int, ...], values: Sequence[int]) -> int:
    """Sum of a value over the pieces of a kit."""
    return sum(pieces * value for pieces, value in zip(kit, values, strict=True))


def _costs(inputs: StarterKitInput) -> list[int]:
    return [item.cents for item in inputs.items]


def _worths(inputs: StarterKitInput) -> list[int]:
    return [item.worth for item in inputs.items]


def _affordable(inputs: StarterKitInput) -> Rules:
    return rules_of(inputs).also(_costs(inputs), high=inputs.budget_cents + HALF)


def _least(rules: Rules, values: Sequence[int]) -> tuple[int, ...] | None:
    from scipy.optimize import Bounds, LinearConstraint, milp  # noqa: PLC0415  slow to load

    count = len(rules.items)
    found = milp(
        rules.per_piece(values),
        integrality=np.ones(2 * count, dtype=int),
        bounds=Bounds(0, np.array([*(i.most for i in rules.items), *[1] * count])),
        constraints=LinearConstraint(
            np.array([r.weights for r in rules.rows]),
            [r.low for r in rules.rows],
            [r.high for r in rules.rows],
        ),
        options={"mip_rel_gap": 0, "time_limit": LONGEST_S},
    )
    if found.status == NONE_EXISTS:
        return None
    if found.status != FOUND or found.x is None:
        raise NoAnswer(
            f"the best kit was not proven within {LONGEST_S:.0f} seconds: leave out some items "
            "that are much alike"
        )
    return tuple(int(v) for v in np.rint(found.x[:count]))
