"""Money as whole ten-thousandths of the currency unit, so that sums are exact."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal

PARTS = 10_000
_CENT = Decimal("0.01")


@dataclass(frozen=True, slots=True, order=True)
class Money:
    """An amount of money.

    >>> Money.of(0.1) + Money.of(0.2) == Money.of(0.3)
    True
    """

    ten_thousandths: int

    @classmethod
    def of(cls, amount: float | Decimal | str) -> Money:
        """An amount rounded half up to a ten-thousandth."""
        exact = Decimal(str(amount)) * PARTS
        return cls(int(exact.to_integral_value(ROUND_HALF_UP)))

    def __add__(self, other: Money) -> Money:
        return Money(self.ten_thousandths + other.ten_thousandths)

    def __sub__(self, other: Money) -> Money:
        return Money(self.ten_thousandths - other.ten_thousandths)

    def __neg__(self) -> Money:
        return Money(-self.ten_thousandths)

    def shared(self, pieces: int) -> Money:
        """One of so many equal pieces, rounded half up to a ten-thousandth."""
        exact = Decimal(self.ten_thousandths) / pieces
        return Money(int(exact.to_integral_value(ROUND_HALF_UP)))

    @property
    def amount(self) -> float:
        """The amount in the currency unit."""
        return self.ten_thousandths / PARTS

    def cents(self) -> Decimal:
        """The amount rounded half up to a cent, for showing."""
        return (Decimal(self.ten_thousandths) / PARTS).quantize(_CENT, ROUND_HALF_UP)


def ceiled_cent(amount: float) -> float:
    """The next whole cent, for a price that must not fall short."""
    whole = Decimal(str(round(amount, 9))).quantize(_CENT, ROUND_CEILING)
    return float(whole)
