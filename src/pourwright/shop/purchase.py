"""Something bought for the shelf, in the units people buy in."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from pourwright.base.band import Band
from pourwright.base.errors import BadInput
from pourwright.base.field import number, pick, text
from pourwright.base.record import Record
from pourwright.shop.day import DAY
from pourwright.shop.money import as_typed

_POUND_MG = Fraction("453592.37")
_GALLON_ML = Fraction("3785.411784")


class BuyUnit(StrEnum):
    """A unit on a package."""

    GALLON = "gallon"
    QUART = "quart"
    PINT = "pint"
    FLUID_OUNCE = "fluid ounce"
    LITER = "liter"
    POUND = "pound"
    OUNCE = "ounce by weight"
    KILOGRAM = "kilogram"
    GRAM = "gram"
    PIECE = "piece"


# Weights and volumes by definition: NIST Handbook 44 (2024), Appendix C.
UNIT_MG = {
    BuyUnit.POUND: _POUND_MG,
    BuyUnit.OUNCE: _POUND_MG / 16,
    BuyUnit.KILOGRAM: Fraction(1_000_000),
    BuyUnit.GRAM: Fraction(1000),
}
UNIT_ML = {
    BuyUnit.GALLON: _GALLON_ML,
    BuyUnit.QUART: _GALLON_ML / 4,
    BuyUnit.PINT: _GALLON_ML / 8,
    BuyUnit.FLUID_OUNCE: _GALLON_ML / 128,
    BuyUnit.LITER: Fraction(1000),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase(Record):
    """One package or several, bought together; they become one lot."""

    quantity: float = number("How much in all", low=0.001, high=1_000_000)
    unit: BuyUnit = pick("Counted in", label="Counted in")
    price_money: float = number("What it cost in all", low=0, high=100_000)
    supplier_lot: str = text("Lot or batch on the supplier's label", most=40, default="")
    sheet_title: str = text("Safety data sheet: title", most=120, default="")
    sheet_date: str = text("Its revision date", pattern=f"({DAY})?", most=10, default="")
    pictograms: str = text("Pictograms as printed on it", most=120, default="")
    flash_point_c: float | None = number(
        "Flash point as printed on it", low=-60, high=400, default=None
    )
    note: str = text("Note", most=300, default="")


@dataclass(frozen=True, slots=True)
class Bought:
    """How much of a lot that is; `words` say what a volume rests on."""

    mg: int = 0
    pieces: int = 0
    words: str = ""


def bought(purchase: Purchase, density_g_ml: Band | None) -> Bought:
    """What came, in whole milligrams or pieces; a volume by the density of the liquid.

    Raises: BadInput for a volume of something whose density nobody knows, a part of a piece, and
    less than a milligram.

    >>> bought(Purchase(quantity=2, unit=BuyUnit.POUND, price_money=5), None).mg
    907185
    """
    amount = as_typed(purchase.quantity)
    if purchase.unit is BuyUnit.PIECE:
        if amount.denominator != 1:
            raise BadInput("quantity", purchase.quantity, "must be a whole number of pieces")
        return Bought(pieces=int(amount))
    if purchase.unit in UNIT_MG:
        return Bought(mg=_whole(purchase, amount * UNIT_MG[purchase.unit]))
    if density_g_ml is None:
        why = "needs a density that nobody knows: weigh it, and enter the weight"
        raise BadInput("unit", purchase.unit, why)
    ml = amount * UNIT_ML[purchase.unit]
    band = (density_g_ml.low, density_g_ml.typical, density_g_ml.high)
    low, typical, high = (ml * as_typed(d) * 1000 for d in band)
    words = (
        f"{purchase.quantity:g} {purchase.unit.value} at {density_g_ml.typical:g} g/mL: "
        f"{float(typical) / 1000:.0f} g"
    )
    if low != high:
        words += f" ({float(low) / 1000:.0f} to {float(high) / 1000:.0f} g); weigh it to be sure"
    return Bought(mg=_whole(purchase, typical), words=words)


def _whole(purchase: Purchase, mg: Fraction) -> int:
    if mg < 1:
        raise BadInput("quantity", purchase.quantity, "is less than a milligram")
    return round(mg)
