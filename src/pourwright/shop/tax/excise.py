"""The quarter's worksheet of the manufacturer's tax on sport fishing equipment."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from pourwright.base.calc import calculation
from pourwright.base.errors import BadInput
from pourwright.base.field import number, out, parts, text
from pourwright.base.record import Record
from pourwright.base.source import memory, published
from pourwright.shop.day import DAY, refuse_no_day
from pourwright.shop.money import as_typed
from pourwright.shop.sale import TaxWay
from pourwright.shop.tax.caution import ASK_ADVISER, CAUTIONS, NOT_ADVICE, TaxCaution
from pourwright.shop.tax.excise_line import ExciseLine
from pourwright.shop.tax.line_tax import LineTax, Seller, line_tax, taxed
from pourwright.shop.tax.quarter import Quarter

RATE = 0.1
FORM_LINE = "Form 720, Part II, IRS No. 41"
_CENTS = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class ExciseInput(Record):
    """The sales of a quarter, and what an adviser or the tax office settled before."""

    year: int = number("Year", low=1985, high=2200)
    quarter: int = number("Quarter, 1 to 4", low=1, high=4)
    lines: tuple[ExciseLine, ...] = parts("What was sold", most=20_000)
    rate: float = number("Rate, as a share of the price", low=0, high=0.5, default=RATE)
    registration: str = text("Number of the registration on Form 637", most=40, default="")
    registered_on: str = text(
        "Day from which it holds; left out, all the quarter", pattern=f"({DAY})?", most=10,
        default="",
    )  # fmt: skip
    base_adviser: str = text("Licensed adviser who told a share below 1", most=80, default="")
    base_since: str = text(
        "First day of sales for which it holds", pattern=f"({DAY})?", most=10, default=""
    )

    def check(self) -> None:
        """Refuse days that do not exist, lines of another quarter, and an unanswered share."""
        for name in ("registered_on", "base_since"):
            refuse_no_day(name, getattr(self, name))
        asked = Quarter(self.year, self.quarter)
        for i, line in enumerate(self.lines):
            if line.sold_on and Quarter.of(line.sold_on) != asked:
                why = f"lies outside {asked.name}, {asked.first} to {asked.last}"
                raise BadInput(f"lines[{i}].sold_on", line.sold_on, why)
            if line.base_share < 1:
                self._refuse_unanswered(f"lines[{i}].base_share", line)

    def _refuse_unanswered(self, field: str, line: ExciseLine) -> None:
        for name in ("base_adviser", "base_since"):
            if not getattr(self, name).strip():
                why = "a share below 1 needs the adviser who told it and its first day"
                raise BadInput(name, "", why)
        if line.sold_on and line.sold_on < self.base_since:
            why = f"holds from {self.base_since} on, and this was sold {line.sold_on}"
            raise BadInput(field, line.base_share, why)


@dataclass(frozen=True, slots=True)
class ExciseAnswer:
    """The sheet."""

    quarter: str = out("The quarter")
    first_day: str = out("Its first day")
    last_day: str = out("Its last day")
    due_on: str = out("Day by which the return and the money are due")
    form_line: str = out("Where the total goes")
    rate: float = out("Rate, as a share")
    lines: tuple[LineTax, ...] = out("Line by line, in the order given")
    free_money: float = out("Price of what was sold free of the tax")
    base_money: float = out("What the rate goes on, all lines, not rounded")
    inside_money: float = out("Tax that lay inside prices, not rounded")
    added_money: float = out("Tax that was added on top, not rounded")
    exact_money: float = out("Tax of the quarter, not rounded")
    tax_money: float = out("Tax of the quarter, rounded once to whole cents, half up")
    not_advice: str = out("What this sheet is not")
    cautions: tuple[TaxCaution, ...] = out("What to know before the figure is used")
    ask_adviser: tuple[str, ...] = out("What is for a licensed adviser alone")
    notes: tuple[str, ...] = out("What was taken for granted here")


@calculation(
    "shop.excise",
    purpose="the quarter's worksheet of the maker's tax on fishing baits (United States)",
    sources=(
        published("26 USC 4161(a)(1)(A), 4162(a)(5), 4216(a), 4221, 4222"),
        published("26 CFR 48.4216(a)-1, 48.4216(a)-2, 48.4218-2"),
        published("Rev. Rul. 65-41, 1965-1 C.B. 454; Rev. Rul. 80-273, 1980-2 C.B. 315"),
        published("IRS, Instructions for Form 720"),
        memory("5 USC 6103(a), legal holidays"),
    ),
    example={
        "year": 2026, "quarter": 2, "base_adviser": "an invented adviser",
        "base_since": "2026-04-01",
        "lines": [
            {"name": "worms, 8 to a pack", "sold_on": "2026-04-18", "quantity": 20,
             "price_money": 5.5},
            {"name": "paddle tails, 6 to a pack", "sold_on": "2026-05-09", "quantity": 20,
             "price_money": 5, "tax_way": "added on top", "base_share": 0.75,
             "delivery_money": 6.4, "delivery_proof": "carrier's receipt"},
        ],
    },
)  # fmt: skip
def excise(inputs: ExciseInput) -> ExciseAnswer:
    """Tax of each line, exact, and of the quarter, rounded once.

    A line is free only where its reason, the registration and the proof are all typed; otherwise
    it is taxed and says why. Nothing here decides whether the tax applies.
    Raises: BadInput for a line of another quarter and for a share below 1 without adviser and day.
    Source: 26 USC 4161(a)(1)(A), 4216(a), 4221, 4222; Rev. Rul. 65-41, 80-273.
    """
    quarter = Quarter(inputs.year, inputs.quarter)
    seller, rate = Seller(inputs.registration, inputs.registered_on), as_typed(inputs.rate)
    lines = [(line, taxed(line, rate=rate, seller=seller)) for line in inputs.lines]
    by_way = {
        way: sum((it.tax for line, it in lines if line.tax_way is way), Fraction(0))
        for way in TaxWay
    }
    exact = sum(by_way.values(), Fraction(0))
    return ExciseAnswer(
        quarter=quarter.name,
        first_day=quarter.first,
        last_day=quarter.last,
        due_on=quarter.due_on,
        form_line=FORM_LINE,
        rate=inputs.rate,
        lines=tuple(line_tax(line, it) for line, it in lines),
        free_money=float(sum((line.price for line, it in lines if it.free), Fraction(0))),
        base_money=float(sum((it.base for _, it in lines), Fraction(0))),
        inside_money=float(by_way[TaxWay.INSIDE]),
        added_money=float(by_way[TaxWay.ADDED]),
        exact_money=float(exact),
        tax_money=half_up_cents(exact),
        not_advice=NOT_ADVICE,
        cautions=CAUTIONS,
        ask_adviser=ASK_ADVISER,
        notes=tuple(_notes(inputs)),
    )


def _notes(inputs: ExciseInput) -> Iterator[str]:
    if inputs.rate == RATE:
        yield f"The rate is {_percent(RATE)} of the price, unless another is typed."
    else:
        yield f"The rate is {_percent(inputs.rate)}, as typed; the law says {_percent(RATE)}."
    if not inputs.lines:
        yield "There is no line: a quarter without sales is filed too, once you have filed."
    undated = sum(not line.sold_on for line in inputs.lines)
    if undated:
        yield f"Lines without a day, counted in the quarter: {undated}."
    smaller = sum(line.base_share < 1 for line in inputs.lines)
    if smaller:
        yield (
            f"Lines taxed on less than their price: {smaller}, as told by {inputs.base_adviser} "
            f"for sales from {inputs.base_since} on."
        )


def _percent(share: float) -> str:
    return f"{share * 100:g}\N{NO-BREAK SPACE}%"


def half_up_cents(amount: Fraction) -> float:
    """Whole cents, a half going up.

    >>> half_up_cents(Fraction("0.005")), half_up_cents(Fraction("0.00499"))
    (0.01, 0.0)
    """
    return math.floor(amount * _CENTS + Fraction(1, 2)) / _CENTS
