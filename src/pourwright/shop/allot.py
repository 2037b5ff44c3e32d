"""Which packs of finished stock serve an order: bags before loose baits, the oldest first."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from pourwright.shop.order import SetAside


@dataclass(frozen=True, slots=True)
class Shelf:
    """Free baits of a lot; `bagged` is how many a bag of it holds, 0 where they lie loose."""

    lot: str
    bagged: int
    free: int

    def packs(self, baits_each: int) -> int:
        """Whole packs it gives; a bag is never opened for another size."""
        if self.bagged not in {0, baits_each}:
            return 0
        return max(0, self.free) // baits_each


def allotted(packs: int, baits_each: int, shelves: Iterable[Shelf]) -> tuple[SetAside, ...]:
    """Packs to take from each lot, at most so many; `shelves` come the oldest first."""
    found: list[SetAside] = []
    for shelf in sorted(shelves, key=lambda it: not it.bagged):
        taken = min(packs, shelf.packs(baits_each))
        if taken:
            found.append(SetAside(lot=shelf.lot, packs=taken))
            packs -= taken
    return tuple(found)


def joined(first: Iterable[SetAside], more: Iterable[SetAside]) -> tuple[SetAside, ...]:
    """Both together, each lot once."""
    packs: dict[str, int] = {}
    for it in (*first, *more):
        packs[it.lot] = packs.get(it.lot, 0) + it.packs
    return tuple(SetAside(lot=lot, packs=n) for lot, n in packs.items())


def trimmed(aside: Iterable[SetAside], packs: int) -> tuple[SetAside, ...]:
    """The first so many packs of what was set aside."""
    found: list[SetAside] = []
    for it in aside:
        kept = min(packs, it.packs)
        if kept:
            found.append(SetAside(lot=it.lot, packs=kept))
            packs -= kept
    return tuple(found)


def beyond(aside: Iterable[SetAside], packs: int) -> tuple[SetAside, ...]:
    """What was set aside but for the first so many packs."""
    found: list[SetAside] = []
    for it in aside:
        gone = min(packs, it.packs)
        packs -= gone
        if gone < it.packs:
            found.append(SetAside(lot=it.lot, packs=it.packs - gone))
    return tuple(found)
