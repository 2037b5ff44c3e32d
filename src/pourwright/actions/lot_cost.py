"""What counted lots cost, by their sheets, their counts and the moves of the stock."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from pourwright.actions.port import Bench
from pourwright.bench.cup_story import UNDONE, Happening, taken_back
from pourwright.bench.tap_kind import TAKEN_BACK
from pourwright.shop.lot import COUNTED, LotEntry, folded
from pourwright.shop.lot_cost import LotCost, Taken, lot_cost
from pourwright.shop.money import Money
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.sheet import Sheet


@dataclass(frozen=True, slots=True)
class CountedLot:
    """A lot that was counted, and what it cost."""

    sheet: Sheet
    cost: LotCost


def counted_lots(bench: Bench, sheets: Iterable[Sheet]) -> tuple[CountedLot, ...]:
    """Those of the sheets that were counted, in their order."""
    wanted = tuple(sheets)
    if not wanted:
        return ()
    since = min(sheet.frozen_at for sheet in wanted)
    told = _told(bench, since)
    moved = _moved(bench, since)
    found = []
    for sheet in wanted:
        entry = _entry(sheet, told[f"lot/{sheet.code}"])
        if entry is not None:
            taken = taken_by(moved[f"sheet/{sheet.number}"])
            found.append(CountedLot(sheet, lot_cost(sheet, entry, taken)))
    return tuple(found)


def taken_by(moves: Sequence[Move]) -> Taken:
    """What the moves of a sheet took from the stock and gave to the pots, those undone apart."""
    undone = {m.reverses for m in moves if m.reverses}
    standing = [m for m in moves if m.id not in undone]
    return Taken(_carried(standing, MoveKind.USED), _carried(standing, MoveKind.POTTED))


def _carried(moves: Sequence[Move], kind: MoveKind) -> Money | None:
    costs = [m.cost for m in moves if m.kind is kind]
    return Money(sum(costs)) if costs else None


def _told(bench: Bench, since: str) -> defaultdict[str, list[Happening]]:
    found: defaultdict[str, list[Happening]] = defaultdict(list)
    for it in bench.ledger.of_kind(COUNTED, UNDONE, TAKEN_BACK, since=since):
        event = it.event
        found[event.subject].append(Happening(event.id, event.kind, event.at, event.body))
    return found


def _moved(bench: Bench, since: str) -> defaultdict[str, list[Move]]:
    found: defaultdict[str, list[Move]] = defaultdict(list)
    for move in bench.stock.moves(since=since):
        found[move.cause].append(move)
    return found


def _entry(sheet: Sheet, told: Sequence[Happening]) -> LotEntry | None:
    gone = taken_back(told)
    return folded(sheet.code, [(h.kind, h.at, h.body) for h in told if h.id not in gone]).entry
