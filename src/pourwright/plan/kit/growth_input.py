"""How a shop stands, and what it could buy next."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.band import Band
from pourwright.base.errors import BadInput
from pourwright.base.field import band, number, parts, text
from pourwright.base.record import Record


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase(Record):
    """Something that could be bought next, and what it changes."""

    name: str = text("What could be bought", most=60)
    cost_money: float = number("Its price", low=0.01, high=50_000)
    minutes_share: Band | None = band(
        "Minutes of a bait with it, as a share of the minutes now", low=0.01, high=5, default=None
    )
    saved_each_money: Band | None = band(
        "What it saves of the cost of a bait besides time", low=-100, high=100, default=None
    )
    measure: str = text("Which record would give these figures", most=200, default="")


@dataclass(frozen=True, slots=True, kw_only=True)
class GrowthInput(Record):
    """How the shop stands, and what could be bought."""

    purchases: tuple[Purchase, ...] = parts("What could be bought", least=1, most=40)
    packs_per_month: Band = band("Packs sold in a month", low=0, high=1_000_000)
    wanted_packs_per_month: Band | None = band(
        "Packs people would take in a month, those you turn away among them",
        low=0, high=1_000_000, default=None,
    )  # fmt: skip
    baits_each: int = number("Baits to a pack", low=1, high=200, default=8)
    minutes_each: Band = band("Minutes of work on one bait now", low=0, high=1000)
    labor_per_h_money: float = number("An hour of work", low=0, high=1000, default=15)
    left_each_money: Band = band(
        "What a pack leaves before the work is paid: price less fees, tax and everything else",
        low=-10_000, high=10_000,
    )  # fmt: skip

    def check(self) -> None:
        """Refuse two purchases of one name, and a market smaller than what it takes."""
        names = [p.name for p in self.purchases]
        for i, name in enumerate(names):
            if name in names[:i]:
                raise BadInput(f"purchases[{i}].name", name, "stands on the list twice")
        wanted = self.wanted_packs_per_month
        if wanted is not None and wanted.typical < self.packs_per_month.typical:
            why = f"must be at least the {self.packs_per_month.typical:g} that are sold"
            raise BadInput("wanted_packs_per_month", wanted.typical, why)
