"""Whether quantity prices still earn what a pack must earn."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.field import band, number, out, parts
from pourwright.base.source import PRACTICE
from pourwright.shop.money import Money, as_typed, ceiled_cent
from pourwright.shop.offer import PriceStep, refuse_odd_steps
from pourwright.shop.price_tax import tax_notes
from pourwright.shop.selling import Selling


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceBreaksInput(Selling):
    """A price list of one pack, what the pack costs, and the margin it must keep."""

    price_money: float = number("Price of one pack", low=0.01, high=10_000)
    breaks: tuple[PriceStep, ...] = parts("Quantity prices, fewest packs first", most=12)
    cost_money: Band = band("Cost of one pack", low=0, high=1e5)
    floor_margin: float = number(
        "Margin that every price must keep, 0 to 1", low=0, high=0.99, default=0.2
    )

    def check(self) -> None:
        """Refuse steps out of order, and a pack given away, which has no margin."""
        refuse_odd_steps(self.price_money, self.breaks, field="breaks")
        for i, step in enumerate(self.breaks):
            if step.price_money <= 0:
                why = "must be more than 0: what is given away has no margin"
                raise BadInput(f"breaks[{i}].price_money", step.price_money, why)


@dataclass(frozen=True, slots=True)
class BreakMargin:
    """What one price leaves when just enough packs for it are taken."""

    from_packs: int = out("From so many packs")
    price_money: float = out("Price of one pack")
    discount: float = out("Off the price of a single pack, 0 to 1")
    left_each_money: Band = out("What is left of one pack after cost, fees and tax inside")
    margin: Band = out("The same as a share of the price; negative is a loss")
    below: bool = out("Whether it keeps less than the floor at the typical cost")
    most_discount: float | None = out(
        "Highest discount that still keeps the floor at so many packs; null where not even the "
        "single price does"
    )
    verdict: str = out("The same in words")


@dataclass(frozen=True, slots=True)
class PriceBreaksAnswer:
    """The list of prices against the floor."""

    rows: tuple[BreakMargin, ...] = out("The single pack first, then each quantity price")
    first_below: str = out("The first price under the floor, in words")
    notes: tuple[str, ...] = out("What the margins rest on, and cautions")


@calculation(
    "shop.price_breaks",
    purpose="do quantity prices still earn",
    sources=(PRACTICE,),
    example={
        "price_money": 7.5,
        "breaks": [{"from_packs": 5, "price_money": 6.75}, {"from_packs": 20, "price_money": 5.5}],
        "cost_money": {"low": 3.9, "typical": 4.4, "high": 5.3}, "fee_share": 0.06,
        "order_fee_money": 0.3, "floor_margin": 0.25,
    },
)  # fmt: skip
def price_breaks(inputs: PriceBreaksInput) -> PriceBreaksAnswer:
    """Margin = 1 - fees - tax inside - (cost + order fee / packs) / price, at each step.

    The order's fixed fee is counted once, so each price is judged at the fewest packs that get
    it: more packs only share the fee better.
    Raises: BadInput for steps out of order, NoAnswer where floor, fees and tax together leave
    nothing, so that no price keeps the floor.
    """
    if inputs.kept <= as_typed(inputs.floor_margin):
        raise NoAnswer(
            f"no price keeps a floor of {inputs.floor_margin:.1%}: fees take "
            f"{inputs.fee_share:.1%} of a price and the tax inside it {float(inputs.inside):.1%}"
        )
    asked = ((1, inputs.price_money), *((b.from_packs, b.price_money) for b in inputs.breaks))
    rows = tuple(_row(inputs, packs, price) for packs, price in asked)
    return PriceBreaksAnswer(rows, _first_below(inputs, rows), _notes(inputs))


def _row(inputs: PriceBreaksInput, packs: int, price: float) -> BreakMargin:
    cost = inputs.cost_money
    left = [_left(inputs, packs, price, c) for c in (cost.high, cost.typical, cost.low)]
    margin = [each / as_typed(price) for each in left]
    floor, lowest = as_typed(inputs.floor_margin), _lowest(inputs, packs)
    single = as_typed(inputs.price_money)
    return BreakMargin(
        packs,
        price,
        float(1 - as_typed(price) / single),
        Band(*map(float, left)),
        Band(*map(float, margin)),
        margin[1] < floor,
        float(1 - lowest / single) if lowest <= single else None,
        _verdict(margin, floor, as_typed(price), lowest),
    )


def _left(inputs: PriceBreaksInput, packs: int, price: float, cost: float) -> Fraction:
    fee = as_typed(inputs.order_fee_money) / packs
    return as_typed(price) * inputs.kept - as_typed(cost) - fee


def _lowest(inputs: PriceBreaksInput, packs: int) -> Fraction:
    """The lowest price in whole cents that keeps the floor at the typical cost."""
    carried = as_typed(inputs.cost_money.typical) + as_typed(inputs.order_fee_money) / packs
    return as_typed(ceiled_cent(carried / (inputs.kept - as_typed(inputs.floor_margin))))


def _verdict(margin: list[Fraction], floor: Fraction, price: Fraction, lowest: Fraction) -> str:
    if margin[1] < floor:
        loss = " and sells below cost" if margin[1] < 0 else ""
        return f"under the floor{loss}: {Money.of(lowest - price).told} more would keep it"
    if margin[0] < floor:
        return "keeps the floor, but not if a pack costs what its range reaches"
    return "keeps the floor"


def _first_below(inputs: PriceBreaksInput, rows: tuple[BreakMargin, ...]) -> str:
    floor = f"your floor of {inputs.floor_margin:.0%}"
    first = next((r for r in rows if r.below), None)
    if first is None:
        return f"No price falls under {floor}."
    leaves = f"it leaves {first.margin.typical:.0%}"
    if first.from_packs == 1:
        return f"Even a single pack falls under {floor}: {leaves}."
    return f"The first under {floor} is the price from {first.from_packs} packs: {leaves}."


def _notes(inputs: PriceBreaksInput) -> tuple[str, ...]:
    return (
        *(("cost_money is a range: margins carry it.",) if _wide(inputs.cost_money) else ()),
        *tax_notes(inputs),
    )


def _wide(cost: Band) -> bool:
    return cost.low < cost.high
