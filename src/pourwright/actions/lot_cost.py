"""What counted lots cost, by their sheets, their counts and the moves of the stock."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from pourwright.actions.lot_told import counts_told
from pourwright.actions.port import Bench
from pourwright.shop.lot_cost import LotCost, Taken, lot_cost
from pourwright.shop.money import Money
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.sheet import Sheet


@dataclass(frozen=True, slots=True)
class CountedLot:
    """A lot that was counted, and what it cost."""

    sheet: Sheet
    cost: LotCost


class CountedLots:
    """The lots of sheets frozen at a moment or later, each reckoned when it is asked for."""

    def __init__(self, bench: Bench, *, since: str) -> None:
        self._counts = counts_told(bench, since=since)
        self._moved = _moved(bench, since)

    def of(self, sheet: Sheet) -> CountedLot | None:
        """The lot of a sheet; none where it was not counted."""
        count = self._counts.get(sheet.code)
        if count is None:
            return None
        taken = taken_by(self._moved.get(f"sheet/{sheet.number}", ()))
        return CountedLot(sheet, lot_cost(sheet, count.entry, taken))


def counted_lots(bench: Bench, sheets: Iterable[Sheet]) -> tuple[CountedLot, ...]:
    """Those of the sheets that were counted, in their order."""
    wanted = tuple(sheets)
    lots = CountedLots(bench, since=min((s.frozen_at for s in wanted), default=""))
    return tuple(lot for sheet in wanted if (lot := lots.of(sheet)) is not None)


def taken_by(moves: Sequence[Move]) -> Taken:
    """What the moves of a sheet took from the stock and gave to the pots, those undone apart."""
    undone = {m.reverses for m in moves if m.reverses}
    standing = [m for m in moves if m.id not in undone]
    return Taken(_carried(standing, MoveKind.USED), _carried(standing, MoveKind.POTTED))


def _carried(moves: Sequence[Move], kind: MoveKind) -> Money | None:
    costs = [m.cost for m in moves if m.kind is kind]
    return Money(sum(costs)) if costs else None


def _moved(bench: Bench, since: str) -> defaultdict[str, list[Move]]:
    found: defaultdict[str, list[Move]] = defaultdict(list)
    for move in bench.stock.moves(since=since):
        found[move.cause].append(move)
    return found
