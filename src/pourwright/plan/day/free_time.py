"""When something is free again: lanes that do one thing at a time, molds that cool."""

from __future__ import annotations

from bisect import bisect, insort
from collections.abc import Iterable

from pourwright.plan.day.load import Taken, Use


class Lanes:
    """Microwaves, or people: each does one thing at a time."""

    def __init__(self, free: Iterable[int]) -> None:
        self._busy: list[list[tuple[int, int]]] = [[(0, until)] for until in free]

    def fit(self, at: int, length: int) -> int:
        """The earliest start, from a time on, that one of them has free for so long."""
        return min(_fit(busy, at, length) for busy in self._busy)

    def take(self, start: int, length: int) -> None:
        """Keep one that is free then busy; the one that has waited least."""
        free = [busy for busy in self._busy if _fit(busy, start, length) == start]
        best = max(free, key=lambda busy: busy[bisect(busy, (start, start)) - 1][1])
        insort(best, (start, start + length))


def _fit(busy: list[tuple[int, int]], at: int, length: int) -> int:
    place = bisect(busy, (at, at))
    at = max(at, busy[place - 1][1]) if place else at
    for start, end in busy[place:]:
        if at + length <= start:
            return at
        at = max(at, end)
    return at


class Molds:
    """Molds by sort, each taken until it is opened."""

    def __init__(self, counts: tuple[int, ...], taken: Iterable[Taken]) -> None:
        self._until: list[list[int]] = [[] for _ in counts]
        self._counts = counts
        for t in taken:
            self._until[t.mold] += [t.until] * t.units

    def earliest(self, uses: Iterable[Use], at: int) -> int:
        """When all the molds of a pour are free, from a time on."""
        for use in uses:
            busy = sorted(self._until[use.mold], reverse=True)
            spare = self._counts[use.mold] - use.units
            if spare < len(busy):
                at = max(at, busy[spare])
        return at

    def take(self, uses: Iterable[Use], pour_end: int) -> None:
        """Fill molds by a pour that ends then."""
        for use in uses:
            kept = sorted(self._until[use.mold], reverse=True)[: self._counts[use.mold] - use.units]
            self._until[use.mold] = [*kept, *[pour_end + use.cool] * use.units]
