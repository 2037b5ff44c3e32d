"""Finished baits that open orders have set aside, by the lot they lie in."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping

from pourwright.actions.port import Bench
from pourwright.shop.order import OPEN_STATES, Order


def baits_set_aside(bench: Bench) -> Mapping[str, int]:
    """Baits, not packs, by lot code; none for a lot that is not named."""
    found: Counter[str] = Counter()
    for stored in bench.records.all(Order.key):
        order = stored.noun
        if not isinstance(order, Order) or order.state not in OPEN_STATES:
            continue
        for line in order.lines:
            for it in line.set_aside:
                found[it.lot] += it.packs * line.baits_each
    return found
