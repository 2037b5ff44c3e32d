"""When a mold or a tool has paid for itself."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from pourwright.base.assume import width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import band, number, out
from pourwright.base.source import PRACTICE, memory
from pourwright.shop.cost import break_even_units, straight_line
from pourwright.shop.money import as_typed
from pourwright.shop.price_tax import tax_notes
from pourwright.shop.selling import Selling
from pourwright.shop.until import Until, in_words, over, until

MONTHS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class PaybackInput(Selling):
    """What is bought, and what a pack made with it leaves."""

    fixed_money: float = number("Price of the mold or tool", low=0.01, high=50_000)
    price_money: float = number("Price of one pack", low=0.01, high=10_000)
    cost_money: Band = band(
        "What one more pack costs, without wear of what is being bought: that is what it pays back",
        low=0, high=1e5,
    )  # fmt: skip
    packs_per_order: float = number("Packs to an order", low=1, high=10_000, default=1)
    packs_per_month: Band | None = band(
        "Packs sold in a month", low=0, high=1_000_000, default=None
    )
    life_packs: float | None = number(
        "Packs it makes before it is worn out", low=1, high=1e8, default=None
    )
    salvage_money: float = number("What it still fetches in the end", low=0, high=50_000, default=0)
    years: float | None = number("Years it is used", low=0.1, high=100, default=None)

    def check(self) -> None:
        """Refuse a thing that fetches more in the end than it costs."""
        if self.salvage_money > self.fixed_money:
            why = f"must be at most {self.fixed_money:g}, what it costs"
            raise BadInput("salvage_money", self.salvage_money, why)


@dataclass(frozen=True, slots=True)
class PaybackAnswer:
    """When it has paid for itself."""

    verdict: str = out("The answer in words")
    packs: Until = out("Packs until it is paid back")
    months: Until | None = out("Months at those sales; null where no sales were given")
    left_each_money: Band = out("What one more pack leaves")
    yearly_money: float | None = out(
        "Straight line instead: its cost in a year; null where no years were given"
    )
    yearly_each_money: float | None = out(
        "The same for one pack at those sales; null where either is unknown"
    )
    notes: tuple[str, ...] = out("What it rests on, and cautions")


@calculation(
    "shop.payback",
    purpose="after how many packs a new mold or tool is paid back",
    sources=(
        PRACTICE,
        memory("break-even: OpenStax, Principles of Accounting 2 (2019), sec. 3.2"),
        memory("straight line: OpenStax, Principles of Accounting 1 (2019), sec. 11.3"),
    ),
    example={
        "fixed_money": 60, "price_money": 7.5,
        "cost_money": {"low": 3.9, "typical": 4.4, "high": 5.3}, "fee_share": 0.06,
        "packs_per_month": {"low": 8, "typical": 15, "high": 24}, "life_packs": 2000, "years": 5,
    },
)  # fmt: skip
def payback(inputs: PaybackInput) -> PaybackAnswer:
    """Packs = price of the thing / what one more pack leaves, up to the next whole pack.

    Raises: NoAnswer where a pack leaves nothing at its typical cost.
    """
    draws = Draws(seed=1)
    typical = break_even_units(
        as_typed(inputs.fixed_money),
        as_typed(inputs.price_money) * inputs.kept,
        as_typed(inputs.cost_money.typical) + _order_fee(inputs),
    )
    cost = draws.of("cost", Doubt("cost of a pack", inputs.cost_money))
    left = inputs.price_money * float(inputs.kept) - float(_order_fee(inputs)) - cost
    packs = over(inputs.fixed_money, left)
    span, months = until(packs, typical, whole=True), _months(draws, inputs, packs, typical)
    yearly = _yearly(inputs)
    return PaybackAnswer(
        _verdict(inputs, span, months),
        span,
        months,
        draws.band(left),
        yearly,
        _each(yearly, inputs.packs_per_month),
        (
            *width_notes(draws, {"left_each_money": left}),
            *_worn(inputs, span),
            *tax_notes(inputs),
        ),
    )


def _order_fee(inputs: PaybackInput) -> Fraction:
    return as_typed(inputs.order_fee_money) / as_typed(inputs.packs_per_order)


def _months(draws: Draws, inputs: PaybackInput, packs: Array, typical: int) -> Until | None:
    sold = inputs.packs_per_month
    if sold is None or sold.typical <= 0:
        return None
    a_month = draws.of("sold", Doubt("packs sold in a month", sold))
    return until(over(1, a_month) * packs, typical / sold.typical)


def _yearly(inputs: PaybackInput) -> float | None:
    if inputs.years is None:
        return None
    return straight_line(inputs.fixed_money, inputs.salvage_money, inputs.years)


def _each(yearly: float | None, sold: Band | None) -> float | None:
    if yearly is None or sold is None or sold.typical <= 0:
        return None
    return yearly / (MONTHS * sold.typical)


def _verdict(inputs: PaybackInput, packs: Until, months: Until | None) -> str:
    words = f"Pays back after {in_words(packs, 'pack', 0)}"
    if months is not None:
        return f"{words}: {in_words(months, 'month', 1)} at the present sales."
    if inputs.packs_per_month is None:
        return f"{words}."
    return f"{words}; nothing is sold at present, so nobody can say when."


def _worn(inputs: PaybackInput, packs: Until) -> tuple[str, ...]:
    life = inputs.life_packs
    if life is None or packs.typical <= life:
        return ()
    return (f"It is worn out after {life:,.0f} packs, before it has paid for itself.",)
