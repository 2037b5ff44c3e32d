"""What a batch costs, by kind, and what one good bait costs."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import numpy as np

from pourwright.base.assume import left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.field import band, number, out, parts, text, unmeasured
from pourwright.base.record import Record
from pourwright.base.source import PRACTICE, estimate, memory
from pourwright.shop.money import Money, as_typed

MATERIALS, POWER, WEAR = "materials", "power", "mold wear"
LABOR, PACKING, OVERHEAD, CREDIT = "labor", "packing and eyes", "overhead", "remelt credit"

NONE = Band(0, 0, 0)
LIFE = Doubt(
    "shots the mold lasts",
    Band(500, 2000, 8000),
    "count the shots of a mold until it is worn out",
    logarithmic=True,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class CostItem(Record):
    """A material that went into the batch."""

    name: str = text("Material", most=60)
    used_g: Band = band("Used", low=0, high=1e6)
    price_per_kg_money: Band = band("Price of a kilogram", low=0, high=1e5)


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchCostInput(Record):
    """Everything one batch uses up. Each number may be a band."""

    items: tuple[CostItem, ...] = parts("Materials, remelt included at its own worth", most=80)
    power_kwh: Band = band("Electricity", low=0, high=100, default=NONE)
    price_per_kwh_money: Band = band("One kilowatt-hour", low=0, high=5, default=NONE)
    shots: int = number("Shots made", low=0, high=100_000, default=0)
    mold_price_money: Band = band("Price of the mold", low=0, high=20_000, default=NONE)
    mold_life_shots: float | None = unmeasured(
        "Shots the mold lasts", low=1, high=10_000_000, logarithmic=LIFE.logarithmic,
        typical=(LIFE.band.low, LIFE.band.typical, LIFE.band.high), measure=LIFE.measure,
    )  # fmt: skip
    labor_min: Band = band("Work", low=0, high=10_000, default=NONE)
    labor_per_h_money: float = number("An hour of work", low=0, high=1000, default=0)
    packing_pieces: int = number("Bags or boxes", low=0, high=1_000_000, default=0)
    packing_each_money: Band = band("Price of a bag or box", low=0, high=1000, default=NONE)
    eyes: int = number("Eyes", low=0, high=1_000_000, default=0)
    eyes_each_money: Band = band("Price of an eye", low=0, high=100, default=NONE)
    packing_money: float = number(
        "Packing and eyes of the batch that are not counted by the piece",
        low=0, high=1e6, default=0,
    )  # fmt: skip
    overhead_money: float = number("Overhead of the batch", low=0, high=1e6, default=0)
    remelt_out_g: Band = band("Remelt kept", low=0, high=1e6, default=NONE)
    remelt_price_per_kg_money: Band = band(
        "Price of the plastic it replaces", low=0, high=1000, default=NONE
    )
    remelt_credit_share: float = number(
        "Worth of remelt against virgin plastic, 0 to 1", low=0, high=1, default=0.5
    )
    good: Band = band("Good baits", low=0, high=1e6)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)


@dataclass(frozen=True, slots=True)
class CostKind:
    """One kind of cost."""

    kind: str = out("Kind")
    amount_money: Band = out("Amount; a credit is negative")
    each_money: Band = out("The same for one good bait")


@dataclass(frozen=True, slots=True)
class ItemCost:
    """What one material cost."""

    name: str = out("Material")
    amount_money: Band = out("Amount; part of the kind materials")


@dataclass(frozen=True, slots=True)
class BatchCostAnswer:
    """Cost of the batch and of one good bait."""

    total_money: Band = out("The whole batch")
    each_money: Band = out("One good bait")
    kinds: tuple[CostKind, ...] = out("By kind; typical amounts add up to the total exactly")
    items: tuple[ItemCost, ...] = out("The materials one by one")
    notes: tuple[str, ...] = out("What dominates, and what would narrow it")


@calculation(
    "shop.batch_cost",
    purpose="what the batch cost, in all and for one good bait",
    sources=(
        PRACTICE,
        memory("units-of-production wear: OpenStax, Financial Accounting, 11.3"),
        estimate("shots a mold lasts; remelt worth half of virgin plastic"),
    ),
    example={
        "items": [{"name": "plastic", "used_g": 336, "price_per_kg_money": 11.6}],
        "power_kwh": 0.09, "price_per_kwh_money": 0.18, "shots": 8, "mold_price_money": 60,
        "mold_life_shots": 4000, "labor_min": 45, "labor_per_h_money": 15,
        "good": {"low": 21, "typical": 25, "high": 28},
    },
)  # fmt: skip
def batch_cost(inputs: BatchCostInput) -> BatchCostAnswer:
    """Sum of materials, power, wear, labor, packing and overhead, less the remelt's worth.

    Grams that stay in cup and barrel are plastic already bought: they are counted once, among the
    materials. Typical amounts are kept in whole ten-thousandths, so that kinds add up.
    Raises: NoAnswer if no bait is good, since then none has a cost.
    """
    if inputs.good.typical < 1:
        raise NoAnswer("no good bait: the batch has a cost, but no bait to carry it")
    draws = Draws(seed=inputs.seed)
    kinds = cost_kinds(draws, inputs)
    total = np.asarray(sum(kinds.values(), start=draws.known(0.0)))
    total[0] = sum((Money.of(float(a[0])) for a in kinds.values()), Money(0)).amount
    good = np.maximum(_drawn(draws)("good", "good baits", inputs.good), 1.0)
    each = total / good
    return BatchCostAnswer(
        draws.band(total),
        draws.band(each),
        tuple(CostKind(k, draws.band(a), draws.band(a / good)) for k, a in kinds.items()),
        tuple(
            ItemCost(item.name, draws.band(_item(_drawn(draws), i, item)))
            for i, item in enumerate(inputs.items)
        ),
        (
            *left_out(inputs, unused=() if kinds[WEAR].any() else ("mold_life_shots",)),
            *width_notes(draws, {"total_money": total, "each_money": each}),
            *_few_good(inputs.good),
        ),
    )


def cost_kinds(draws: Draws, inputs: BatchCostInput) -> dict[str, Array]:
    """Amounts by kind, drawn; the typical ones are exact to a ten-thousandth."""
    given = inputs.mold_life_shots
    life = draws.known(given) if given else draws.of("mold life", LIFE)
    amounts = {k: np.array(a) for k, a in _amounts(_drawn(draws), inputs, life).items()}
    for kind, exact in _amounts(_typed, inputs, as_typed(given or LIFE.band.typical)).items():
        amounts[kind][0] = Money.of(exact).amount
    return amounts


# How a sum reads a value: its key, its label, and the number or band that was entered.
Reader = Callable[[str, str, Band | float], Any]


def _amounts(read: Reader, inputs: BatchCostInput, life_shots: Any) -> dict[str, Any]:
    """The sums, once, for exact fractions as well as for draws."""
    zero = read("", "", 0.0)
    mold = read("mold price", "price of the mold", inputs.mold_price_money)
    hours = read("labor", "minutes of work", inputs.labor_min) / 60
    remelt_kg = read("remelt out", "remelt kept", inputs.remelt_out_g) / 1000
    worth = read("remelt price", "price of plastic", inputs.remelt_price_per_kg_money)
    return {
        MATERIALS: sum((_item(read, i, item) for i, item in enumerate(inputs.items)), start=zero),
        POWER: read("power", "electricity", inputs.power_kwh)
        * read("tariff", "price of electricity", inputs.price_per_kwh_money),
        WEAR: inputs.shots * mold / life_shots,
        LABOR: hours * read("", "", inputs.labor_per_h_money),
        PACKING: inputs.packing_pieces * read("bag", "price of a bag", inputs.packing_each_money)
        + inputs.eyes * read("eye", "price of an eye", inputs.eyes_each_money)
        + read("", "", inputs.packing_money),
        OVERHEAD: read("", "", inputs.overhead_money),
        CREDIT: zero - remelt_kg * worth * read("", "", inputs.remelt_credit_share),
    }


def _item(read: Reader, place: int, item: CostItem) -> Any:
    used = read(f"item {place} used", f"grams of {item.name}", item.used_g)
    return (
        used / 1000 * read(f"item {place} price", f"price of {item.name}", item.price_per_kg_money)
    )


def _typed(key: str, label: str, given: Band | float) -> Fraction:  # noqa: ARG001  a Reader
    return as_typed(given.typical if isinstance(given, Band) else given)


def _drawn(draws: Draws) -> Reader:
    def read(key: str, label: str, given: Band | float) -> Array:
        if not isinstance(given, Band):
            return draws.known(given)
        if given.low == given.high:
            return draws.known(given.typical)
        return draws.of(key, Doubt(label, given))

    return read


def _few_good(good: Band) -> tuple[str, ...]:
    """A word where the range of good baits reaches down to none."""
    if good.low >= 1:
        return ()
    return ("each_money: perhaps no bait is good; the high end then stands for a single good one.",)


def straight_line(cost: float, salvage: float, years: float) -> float:
    """Depreciation of a year: (cost - salvage) / life.

    Raises: BadInput for a life that is not positive or a salvage above the cost.
    Source: OpenStax, Principles of Accounting 1 (2019), sec. 11.3.

    >>> straight_line(58000, 10000, 5)
    9600.0
    """
    if not years > 0:
        raise BadInput("years", years, "must be more than 0")
    if not 0 <= salvage <= cost:
        raise BadInput("salvage", salvage, f"must lie between 0 and the cost {cost:g}")
    return (cost - salvage) / years


def break_even_units(
    fixed: float | Fraction, price: float | Fraction, variable: float | Fraction
) -> int:
    """Units whose contribution covers the fixed costs.

    Raises: BadInput for negative fixed costs, NoAnswer if a unit contributes nothing.
    Source: OpenStax, Principles of Accounting 2 (2019), sec. 3.2.

    >>> break_even_units(18000, 100, 20)
    225
    """
    if not fixed >= 0:
        raise BadInput("fixed", fixed, "must be 0 or more")
    if not price > variable:
        brings, costs = Money.of(price), Money.of(variable)
        raise NoAnswer(
            f"a unit brings {brings} and costs {costs}: it sells for "
            "no more than it costs: no quantity breaks even"
        )
    return math.ceil(as_typed(fixed) / (as_typed(price) - as_typed(variable)))
