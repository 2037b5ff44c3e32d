"""How many baits a bag is likely to take: as such baits are sold, asked for, or packed."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.actions.bait_kind import BaitKind
from pourwright.actions.offered import offers
from pourwright.actions.port import Bench
from pourwright.shop.material import Packing
from pourwright.shop.order import Order


def baits_to_bag(bench: Bench, kind: BaitKind) -> int | None:
    """As the price list packs them, else as an open order wants them, else as the packing on the
    shelf takes them; none where nothing says it and the maker is to be asked.
    """  # fmt: skip
    return next(_said(bench, kind), None)


def _said(bench: Bench, kind: BaitKind) -> Iterator[int]:
    priced = [offer for _, offer in offers(bench) if offer.bait == kind.bait]
    for look in (kind.look, ""):
        yield from (offer.baits_each for offer in priced if offer.look == look)
    for order in bench.records.all(Order.key):
        if isinstance(order.noun, Order) and order.noun.open:
            yield from (
                line.baits_each
                for line in order.noun.lines
                if (line.bait, line.look) == (kind.bait, kind.look)
            )
    for packing in bench.records.all(Packing.key):
        if isinstance(packing.noun, Packing):
            yield packing.noun.baits_each
