"""Finished baits nobody has set aside, by bait and look."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping

from pourwright.actions.bait_kind import BaitKind, BaitKinds
from pourwright.actions.baits_set_aside import baits_set_aside
from pourwright.actions.port import Bench
from pourwright.shop.allot import Shelf
from pourwright.shop.stock_lot import LotSort

Shelves = Mapping[BaitKind, tuple[Shelf, ...]]


def free_stock(bench: Bench) -> Shelves:
    """What open orders have not set aside, the oldest lots first."""
    kinds, aside = BaitKinds(bench), baits_set_aside(bench)
    found: dict[BaitKind, list[Shelf]] = defaultdict(list)
    for sort in (LotSort.BAGGED, LotSort.POURED):
        for held in bench.stock.lots(sort, present=True):
            lot = held.lot
            free = held.pieces - aside.get(lot.code, 0)
            if free > 0:
                bagged = lot.baits_each if sort is LotSort.BAGGED else 0
                found[kinds.of(lot)].append(Shelf(lot.code, bagged, free))
    return {kind: tuple(shelves) for kind, shelves in found.items()}
