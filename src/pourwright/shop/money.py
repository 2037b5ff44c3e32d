"""Money as whole ten-thousandths of the currency unit, so that sums are exact."""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from pourwright.base.errors import BadInput
from pourwright.base.units import ANY_CURRENCY

PARTS = 10_000
_CENT = PARTS // 100

Amount = float | Decimal | Fraction | str


@dataclass(frozen=True, slots=True, order=True)
class Money:
    """An amount of money. Halves round away from zero, as on a bill.

    >>> Money.of(0.1) + Money.of(0.2) == Money.of(0.3)
    True
    >>> str(Money.of("2.675")), str(Money.of("3.8976") * Fraction(1, 3))
    ('2.68', '1.30')
    """

    ten_thousandths: int

    @classmethod
    def of(cls, amount: Amount) -> Money:
        """An amount rounded to a ten-thousandth.

        Raises: BadInput for what is no finite number.
        """
        return cls(_rounded(as_typed(amount) * PARTS))

    def __add__(self, other: Money) -> Money:
        return Money(self.ten_thousandths + other.ten_thousandths)

    def __sub__(self, other: Money) -> Money:
        return Money(self.ten_thousandths - other.ten_thousandths)

    def __neg__(self) -> Money:
        return Money(-self.ten_thousandths)

    def __mul__(self, factor: Amount) -> Money:
        return Money(_rounded(self.ten_thousandths * as_typed(factor)))

    def __str__(self) -> str:
        return str(self.cents())

    def shared(self, pieces: int) -> Money:
        """One of so many equal pieces, rounded to a ten-thousandth.

        Raises: BadInput for fewer than one piece.
        """
        if pieces < 1:
            raise BadInput("pieces", pieces, "must be 1 or more")
        return Money(_rounded(Fraction(self.ten_thousandths, pieces)))

    @property
    def amount(self) -> float:
        """The amount in the currency unit."""
        return self.ten_thousandths / PARTS

    def decimal(self) -> Decimal:
        """The exact amount, to four places."""
        return Decimal(self.ten_thousandths).scaleb(-4)

    @property
    def told(self) -> str:
        """The amount in a sentence of an answer, before which any currency may stand.

        >>> Money.of(4.5).told
        '¤4.50'
        """
        return f"{ANY_CURRENCY}{self}"

    def cents(self) -> Decimal:
        """The amount rounded to a cent, for showing."""
        return Decimal(_rounded(Fraction(self.ten_thousandths, _CENT))).scaleb(-2)


def as_typed(amount: Amount) -> Fraction:
    """A number exactly as a person typed it: 0.1 is a tenth, not the nearest binary fraction.

    Raises: BadInput for what is no finite number.

    >>> as_typed(0.1)
    Fraction(1, 10)
    """
    if isinstance(amount, Fraction):
        return amount
    try:
        return Fraction(Decimal(str(amount)))
    except (ArithmeticError, ValueError) as error:
        raise BadInput("amount", amount, "must be a finite number") from error


def ceiled_cent(amount: Amount) -> float:
    """The next whole cent, for a price that must not fall short.

    >>> ceiled_cent(1.10), ceiled_cent("1.1001")
    (1.1, 1.11)
    """
    return math.ceil(as_typed(amount) * 100) / 100


def _rounded(value: Fraction) -> int:
    whole = math.floor(abs(value) + Fraction(1, 2))
    return whole if value >= 0 else -whole
