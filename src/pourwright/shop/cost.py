"""What a batch costs, by kind, and what one good bait costs."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.field import band, number, out, parts, text
from pourwright.base.record import Record
from pourwright.base.source import PRACTICE, memory
from pourwright.shop.money import Money

MATERIALS, POWER, WEAR = "materials", "power", "mold wear"
LABOR, PACKING, OVERHEAD, CREDIT = "labor", "packing and eyes", "overhead", "remelt credit"


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
    power_kwh: Band = band("Electricity", low=0, high=100, default=Band(0, 0, 0))
    price_per_kwh_money: Band = band("One kilowatt-hour", low=0, high=5, default=Band(0, 0, 0))
    shots: int = number("Shots made", low=0, high=100_000, default=0)
    mold_price_money: Band = band("Price of the mold", low=0, high=20_000, default=Band(0, 0, 0))
    mold_life_shots: int = number("Shots the mold lasts", low=1, high=10_000_000, default=2000)
    labor_min: Band = band("Work", low=0, high=10_000, default=Band(0, 0, 0))
    labor_per_h_money: float = number("An hour of work", low=0, high=1000, default=0)
    packing_money: float = number("Packing and eyes of the batch", low=0, high=1e6, default=0)
    overhead_money: float = number("Overhead of the batch", low=0, high=1e6, default=0)
    remelt_out_g: Band = band("Remelt kept", low=0, high=1e6, default=Band(0, 0, 0))
    remelt_price_per_kg_money: Band = band(
        "Price of the plastic it replaces", low=0, high=1000, default=Band(0, 0, 0)
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


@dataclass(frozen=True, slots=True)
class BatchCostAnswer:
    """Cost of the batch and of one good bait."""

    total_money: Band = out("The whole batch")
    each_money: Band = out("One good bait")
    kinds: tuple[CostKind, ...] = out("By kind; typical amounts add up to the total exactly")
    notes: tuple[str, ...] = out("What dominates, and what would narrow it")


@calculation(
    "shop.batch_cost",
    purpose="what the batch cost, in all and for one good bait",
    sources=(PRACTICE, memory("units-of-production wear: OpenStax, Financial Accounting, 11.3")),
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
    materials. Raises: NoAnswer if no bait is good, since then none has a cost.
    """
    draws = Draws(seed=inputs.seed)
    kinds = cost_kinds(draws, inputs)
    total = np.asarray(sum(kinds.values(), start=draws.known(0.0)))
    good = _drawn(draws, "good baits", inputs.good)
    if good[0] < 1:
        raise NoAnswer("no good bait: the batch has a cost, but no bait to carry it")
    each = total / np.maximum(good, 1.0)
    return BatchCostAnswer(
        draws.band(total),
        draws.band(each),
        tuple(CostKind(kind, draws.band(amount)) for kind, amount in kinds.items()),
        width_notes(draws, {"total_money": total, "each_money": each}),
    )


def cost_kinds(draws: Draws, inputs: BatchCostInput) -> dict[str, Array]:
    """Amounts by kind, drawn; the typical ones are whole ten-thousandths."""
    materials = draws.known(0.0)
    for item in inputs.items:
        grams = _drawn(draws, f"grams of {item.name}", item.used_g)
        price = _drawn(draws, f"price of {item.name}", item.price_per_kg_money)
        materials = materials + grams / 1000 * price
    kwh = _drawn(draws, "electricity", inputs.power_kwh)
    tariff = _drawn(draws, "price of electricity", inputs.price_per_kwh_money)
    mold = _drawn(draws, "price of the mold", inputs.mold_price_money)
    minutes = _drawn(draws, "minutes of work", inputs.labor_min)
    remelt = _drawn(draws, "remelt kept", inputs.remelt_out_g) / 1000
    worth = _drawn(draws, "price of plastic", inputs.remelt_price_per_kg_money)
    amounts = {
        MATERIALS: materials,
        POWER: kwh * tariff,
        WEAR: inputs.shots * mold / inputs.mold_life_shots,
        LABOR: minutes / 60 * inputs.labor_per_h_money,
        PACKING: draws.known(inputs.packing_money),
        OVERHEAD: draws.known(inputs.overhead_money),
        CREDIT: -remelt * worth * inputs.remelt_credit_share,
    }
    return {kind: _whole(amount) for kind, amount in amounts.items()}


def straight_line(cost: float, salvage: float, years: float) -> float:
    """Depreciation of a year: (cost - salvage) / life.

    Source: OpenStax, Principles of Accounting 1 (2019), sec. 11.3.
    """
    if years <= 0:
        raise BadInput("years", years, "must be more than 0")
    return (cost - salvage) / years


def break_even_units(fixed: float, price: float, variable: float) -> int:
    """Units whose contribution covers the fixed costs.

    Raises: NoAnswer if a unit contributes nothing.
    Source: OpenStax, Principles of Accounting 2 (2019), sec. 3.2.

    >>> break_even_units(18000, 100, 20)
    225
    """
    if price <= variable:
        raise NoAnswer("a unit sells for no more than it costs: no quantity breaks even")
    return math.ceil(round(fixed / (price - variable), 9))


def _drawn(draws: Draws, label: str, given: Band) -> Array:
    if given.low == given.high:
        return draws.known(given.typical)
    return draws.of(label, Doubt(label, given))


def _whole(amount: Array) -> Array:
    amount = amount.copy()
    amount[0] = Money.of(float(amount[0])).amount
    return amount
