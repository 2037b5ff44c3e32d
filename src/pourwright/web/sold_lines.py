"""The lines of a sale in words and pictures."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.bait_kind import BaitKind, BaitKinds
from pourwright.actions.port import Bench
from pourwright.shop.money import Money
from pourwright.shop.sale import Exempt, Sale
from pourwright.web.thumb import KindThumbs, Thumb


@dataclass(frozen=True, slots=True)
class SoldLine:
    """A line of a sale."""

    bait: str
    look: str
    packs: int
    each: int
    lot: str
    price: Money
    asked: Money
    exempt: str
    tax_way: str
    thumb: Thumb | None


def sold_lines(bench: Bench, sale: Sale) -> tuple[SoldLine, ...]:
    """Every line, with the names of today."""
    kinds, pictures = BaitKinds(bench), KindThumbs(bench)
    found = []
    for line in sale.lines:
        kind = BaitKind(line.bait, line.look)
        found.append(
            SoldLine(
                kinds.bait_name(kind), kinds.look_name(kind), line.packs, line.baits_each,
                line.lot, Money.of(line.price_money), line.asked,
                "" if line.exempt is Exempt.NO else line.exempt.value, line.tax_way.value,
                pictures.of(kind),
            )
        )  # fmt: skip
    return tuple(found)
