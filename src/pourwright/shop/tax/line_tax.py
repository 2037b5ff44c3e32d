"""The tax of one line, exact, and the line as it stands on the sheet."""

from __future__ import annotations

import calendar
import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from pourwright.base.field import out
from pourwright.shop.money import as_typed
from pourwright.shop.price_tax import inside_share
from pourwright.shop.sale import Exempt, TaxWay
from pourwright.shop.tax.excise_line import ExciseLine

_PROOF_MONTHS = 6
_MONTHS_A_YEAR = 12


@dataclass(frozen=True, slots=True)
class Seller:
    """The registration of a seller, and the day from which it holds; empty: all along."""

    registration: str
    registered_on: str

    def registered_for(self, day: str) -> bool:
        """Whether the registration held on that day."""
        return bool(self.registration.strip()) and (not day or self.registered_on <= day)


@dataclass(frozen=True, slots=True)
class Taxed:
    """The rate goes on `base`; `lacking` is what keeps a line from being free of the tax."""

    base: Fraction
    tax: Fraction
    free: bool = False
    lacking: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LineTax:
    """One line of the sheet."""

    name: str = out("What was sold")
    sold_on: str = out("Day of the sale")
    quantity: int = out("How many")
    charged_money: float = out("All that was charged, a delivery beside the price too")
    excluded_money: float = out("Delivery that is no part of the price")
    tax_way: TaxWay = out("How the price holds the tax")
    free: bool = out("Whether it is free of the tax, registration and proof being typed")
    base_share: float = out("Share of the price that is taxed, 0 to 1")
    base_money: float = out("That share of the price without the tax; the rate goes on it")
    tax_money: float = out("Tax, not rounded")
    proof_by: str = out("Day by which the proof of a free sale must be there; empty for others")
    notes: tuple[str, ...] = out("What to know of this line")


def taxed(line: ExciseLine, *, rate: Fraction, seller: Seller) -> Taxed:
    """The tax of a line.

    Added on top, T = r f P; inside, T = P r f / (1 + r f), which is r f (P - T).
    Source: 26 USC 4161(a)(1)(A), 4216(a); Rev. Rul. 65-41 (inside unless stated); Rev. Rul.
    80-273 (a share of the price after the adjustments of 4216(a)); 4221, 4222 (free sales).
    """
    lacking = _lacking(line, seller)
    if line.exempt is not Exempt.NO and not lacking:
        return Taxed(Fraction(0), Fraction(0), free=True)
    share = as_typed(line.base_share)
    inside = inside_share(rate, share) if line.tax_way is TaxWay.INSIDE else 0
    base = share * line.price * (1 - inside)
    return Taxed(base, rate * base, lacking=lacking)


def _lacking(line: ExciseLine, seller: Seller) -> tuple[str, ...]:
    if line.exempt is Exempt.NO:
        return ()
    registered = seller.registered_for(line.sold_on)
    return (
        *(() if registered else ("a registration that held on that day (26 USC 4222)",)),
        *(() if line.proof.strip() else ("the proof (26 USC 4221(b))",)),
    )


def line_tax(line: ExciseLine, it: Taxed) -> LineTax:
    """The line as it stands on the sheet."""
    return LineTax(
        name=line.name,
        sold_on=line.sold_on,
        quantity=line.quantity,
        charged_money=float(line.charged),
        excluded_money=float(line.excluded),
        tax_way=line.tax_way,
        free=it.free,
        base_share=line.base_share,
        base_money=float(it.base),
        tax_money=float(it.tax),
        proof_by=_proof_by(line.sold_on) if it.free and line.sold_on else "",
        notes=tuple(_notes(line, it)),
    )


def _notes(line: ExciseLine, it: Taxed) -> Iterator[str]:
    if it.lacking:
        lacks = " and ".join(it.lacking)
        yield f"Said to be {line.exempt.value}, but taxed here: it lacks {lacks}."
    if it.free:
        yield (
            f"Free: {line.exempt.value}. The proof must be there within 6 months of the sale or, "
            "if earlier, of the shipment."
        )
    if line.delivery_money and not line.excluded and not it.free:
        yield (
            "Delivery is taxed with the price: nothing says how its amount is established "
            "(26 USC 4216(a))."
        )
    if not line.asked:
        yield "Nothing was charged: giveaways, samples and swaps are for an adviser."


def _proof_by(sold_on: str) -> str:
    """Six months on, the last day of a shorter month standing in. Source: 26 USC 4221(b)."""
    day = dt.date.fromisoformat(sold_on)
    years, month = divmod(day.month - 1 + _PROOF_MONTHS, _MONTHS_A_YEAR)
    year = day.year + years
    last = calendar.monthrange(year, month + 1)[1]
    return dt.date(year, month + 1, min(day.day, last)).isoformat()
