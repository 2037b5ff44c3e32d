"""One lot of the stock: what it is, what moved, where it came from and went."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.buy_lot import paper_of
from pourwright.actions.keep_stock import OWN_DEEDS
from pourwright.actions.port import Bench
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.purchase import Purchase
from pourwright.shop.stock_lot import Held, LotSort
from pourwright.shop.trace import reached


@dataclass(frozen=True, slots=True)
class MoveLine:
    """A move as a lot sees it; `back` where it was taken back, `own` where it can be from here."""

    move: Move
    into: bool
    back: bool
    own: bool


@dataclass(frozen=True, slots=True)
class TracedLot:
    """A lot on the way; steps are below 0 before the traced lot and above 0 after it."""

    held: Held
    steps: int
    loss_mg: int


@dataclass(frozen=True, slots=True)
class LotStock:
    """All that is known of a lot."""

    held: Held
    paper: Purchase | None
    moves: tuple[MoveLine, ...]
    lots: tuple[TracedLot, ...]
    ways: tuple[tuple[str, str], ...]


def see_lot(bench: Bench, code: str) -> LotStock:
    """The lot of that code. Raises: NotFound."""
    held = bench.stock.lot(code)
    moves = bench.stock.moves(lot=code)
    back = {m.reverses for m in moves}
    up, down = bench.stock.came_from(code), bench.stock.went_to(code)
    ways = dict.fromkeys((m.source, m.target) for m in (*up, *down) if m.source and m.target)
    before = reached(code, [(target, source) for source, target in ways])
    after = reached(code, ways)
    steps = {code: 0} | {k: -n for k, n in before.items()} | after
    return LotStock(
        held=held,
        paper=paper_of(bench, code),
        moves=tuple(_line(m, code, back) for m in moves),
        lots=tuple(_traced(bench, it, n) for it, n in steps.items()),
        ways=tuple(ways),
    )


def _line(move: Move, code: str, back: set[str]) -> MoveLine:
    gone = move.id in back
    own = move.kind is not MoveKind.REVERSED and move.cause.startswith(OWN_DEEDS)
    return MoveLine(move, move.target == code, gone, own and not gone)


def _traced(bench: Bench, code: str, steps: int) -> TracedLot:
    held = bench.stock.lot(code)
    lost = 0
    if held.lot.sort is LotSort.POURED:
        moves = bench.stock.moves(lot=code)
        back = {m.reverses for m in moves}
        lost = sum(
            m.mg for m in moves
            if m.kind is MoveKind.SCRAPPED and not m.pieces and m.id not in back
        )  # fmt: skip
    return TracedLot(held, steps, lost)
