"""Weighed baits, lot by lot, and what is asked of them."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.errors import BadInput
from pourwright.base.field import number, parts, text
from pourwright.base.record import Record
from pourwright.shop.chart import constant

# Weight of the newest reading in the moving mean, and its limits in standard deviations: together
# one false alarm in 500. Lucas and Saccucci, Technometrics 32 (1990) 1, table 3.
EWMA_WEIGHT, EWMA_WIDTH = 0.2, 2.962


@dataclass(frozen=True, slots=True, kw_only=True)
class Subgroup(Record):
    """Baits of one lot, weighed one by one, or one reading."""

    lot: str = text("Lot", most=40)
    masses_g: tuple[float, ...] = parts(
        "Weights", least=1, most=constant.MOST, low=0.01, high=3000
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class MassInput(Record):
    """Lots in the order in which they were poured, each with as many weights as the others."""

    subgroups: tuple[Subgroup, ...] = parts("Lots, oldest first", least=1, most=2000)
    mean_of: int = number(
        "Baits on the scale at once, where a weight is the mean of several", low=1, high=100,
        default=1,
    )  # fmt: skip
    low_g: float | None = number("Lightest that will do", low=0, high=3000, default=None)
    high_g: float | None = number("Heaviest that will do", low=0.01, high=3000, default=None)
    usual_g: float | None = number(
        "Mean known from before; left out, that of these lots", low=0.01, high=3000, default=None
    )
    usual_sigma_g: float | None = number(
        "Spread of a weight known from before, as a standard deviation; left out, from these lots",
        low=1e-6, high=1000, default=None,
    )  # fmt: skip
    ewma_weight: float = number(
        "Weight of the newest lot in the moving mean, 0 to 1",
        low=0.01, high=1, default=EWMA_WEIGHT,
    )  # fmt: skip
    ewma_width: float = number(
        "Limits of the moving mean, in standard deviations", low=1, high=5, default=EWMA_WIDTH
    )
    claim_share: float = number(
        "Share outside the limits that you want to rule out, 0 to 1",
        low=0.0001, high=0.5, default=0.02,
    )  # fmt: skip

    def check(self) -> None:
        """Refuse lots of different sizes, and limits the wrong way round."""
        size = len(self.subgroups[0].masses_g)
        for i, it in enumerate(self.subgroups):
            if len(it.masses_g) != size:
                why = f"must hold {size} weights, as many as the first lot"
                raise BadInput(f"subgroups[{i}].masses_g", len(it.masses_g), why)
        if self.low_g is not None and self.high_g is not None and self.low_g >= self.high_g:
            raise BadInput("high_g", self.high_g, f"must be more than {self.low_g:g}")

    @property
    def size(self) -> int:
        """Weights of a lot."""
        return len(self.subgroups[0].masses_g)
