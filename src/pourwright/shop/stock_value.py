"""What stock is worth, and what was used cost: at a moving average, or first in, first out."""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction

from pourwright.base.calc import calculation
from pourwright.base.errors import BadInput
from pourwright.base.field import number, out, parts, pick, text
from pourwright.base.record import Record
from pourwright.base.source import memory
from pourwright.shop.day import DAY, refuse_no_day
from pourwright.shop.money import Money, as_typed

EXACT = "Reckoned in exact fractions; each figure shown is rounded to a ten-thousandth on its own."
NO_TAX_RULE = (
    "Which way a tax return takes stock is a matter of local rules: ask a licensed adviser before "
    "changing it."
)


class Method(StrEnum):
    """How what is used is charged."""

    AVERAGE = "moving average"
    FIRST_IN = "first in, first out"


@dataclass(frozen=True, slots=True, kw_only=True)
class DatedMove(Record):
    """Something that came or went; grams, pieces or any unit, one and the same throughout."""

    day: str = text("Day, such as 2026-11-25", most=10, pattern=DAY)
    amount: float = number("What came; below 0 what went", low=-1e9, high=1e9)
    each_money: float | None = number(
        "Price of one unit of what came; left out, it comes at the average of what is there",
        low=0, high=1e6, default=None,
    )  # fmt: skip

    def check(self) -> None:
        """Refuse a move of nothing, a price of what went, and a day that does not exist."""
        if self.amount == 0:
            raise BadInput("amount", self.amount, "must not be 0: nothing moved")
        if self.amount < 0 and self.each_money is not None:
            why = "is for what came: what goes takes the cost of what is there along"
            raise BadInput("each_money", self.each_money, why)
        refuse_no_day("day", self.day)


@dataclass(frozen=True, slots=True, kw_only=True)
class StockValueInput(Record):
    """Moves of one material, in any order; those of one day count as they stand."""

    moves: tuple[DatedMove, ...] = parts("What came and went", least=1, most=5000)
    method: Method = pick("How what is used is charged", label="Method", default=Method.AVERAGE)


@dataclass(frozen=True, slots=True)
class ValuedMove:
    """One move, and the stock after it."""

    day: str = out("Day")
    amount: float = out("What came; below 0 what went")
    cost_money: float = out("What it cost, in or out")
    on_hand: float = out("There afterwards")
    value_money: float = out("What that is worth")
    each_money: float | None = out("Average worth of one unit of it; null where nothing is there")


@dataclass(frozen=True, slots=True)
class StockValueAnswer:
    """What was used cost, and what is left is worth."""

    used_money: float = out("Cost of all that went")
    on_hand: float = out("What is left")
    value_money: float = out("What that is worth")
    moves: tuple[ValuedMove, ...] = out("The moves by day")
    notes: tuple[str, ...] = out("Cautions")


@dataclass(slots=True)
class _Pile:
    """What lies there, as layers of amount and price; an average has one layer only."""

    method: Method
    layers: deque[tuple[Fraction, Fraction]] = field(default_factory=deque)

    @property
    def amount(self) -> Fraction:
        return sum((amount for amount, _ in self.layers), Fraction(0))

    @property
    def value(self) -> Fraction:
        return sum((amount * each for amount, each in self.layers), Fraction(0))

    def put(self, amount: Fraction, each: Fraction) -> Fraction:
        self.layers.append((amount, each))
        if self.method is Method.AVERAGE:
            total, worth = self.amount, self.value
            self.layers = deque([(total, worth / total)])
        return amount * each

    def take(self, amount: Fraction) -> Fraction:
        cost = Fraction(0)
        while amount:
            there, each = self.layers.popleft()
            part = min(there, amount)
            cost += part * each
            amount -= part
            if there > part:
                self.layers.appendleft((there - part, each))
        return cost


@calculation(
    "shop.stock_value",
    purpose="what stock is worth and what was used cost, by moving average or first in first out",
    sources=(memory("OpenStax, Principles of Accounting 1 (2019), sec. 10.3, perpetual methods"),),
    example={
        "moves": [
            {"day": "2026-07-01", "amount": 150, "each_money": 21},
            {"day": "2026-07-05", "amount": -120},
            {"day": "2026-07-10", "amount": 225, "each_money": 27},
            {"day": "2026-07-15", "amount": -180},
            {"day": "2026-07-21", "amount": 210, "each_money": 33},
        ],
    },
)
def stock_value(inputs: StockValueInput) -> StockValueAnswer:
    """Each move in the order of days: what came joins the pile, what went takes its cost along.

    At a moving average all that lies there has one price, mixed anew by whatever comes; first in,
    first out charges the oldest layer. What comes without a price, as a count finds it, takes
    the average of what is there, and 0 where nothing is.
    Raises: BadInput for more leaving than was there that day.
    """
    pile, rows, used = _Pile(inputs.method), [], Fraction(0)
    days = sorted(range(len(inputs.moves)), key=lambda i: (inputs.moves[i].day, i))
    for i in days:
        move = inputs.moves[i]
        cost = _moved(pile, move, i)
        used += cost if move.amount < 0 else 0
        rows.append(_row(pile, move, cost))
    return StockValueAnswer(
        Money.of(used).amount,
        float(pile.amount),
        Money.of(pile.value).amount,
        tuple(rows),
        (EXACT, NO_TAX_RULE),
    )


def _moved(pile: _Pile, move: DatedMove, place: int) -> Fraction:
    amount = as_typed(move.amount)
    if amount > 0:
        each = as_typed(move.each_money) if move.each_money is not None else _average(pile)
        return pile.put(amount, each)
    if -amount > pile.amount:
        why = f"is more than the {float(pile.amount):g} that were there on {move.day}"
        raise BadInput(f"moves[{place}].amount", move.amount, why)
    return pile.take(-amount)


def _average(pile: _Pile) -> Fraction:
    return pile.value / pile.amount if pile.amount else Fraction(0)


def _row(pile: _Pile, move: DatedMove, cost: Fraction) -> ValuedMove:
    return ValuedMove(
        move.day,
        move.amount,
        Money.of(cost).amount,
        float(pile.amount),
        Money.of(pile.value).amount,
        Money.of(_average(pile)).amount if pile.amount else None,
    )
