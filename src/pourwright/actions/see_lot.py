"""One lot of the stock: what it is, what moved, where it came from and went."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from pourwright.actions.buy_lot import paper_of
from pourwright.actions.keep_stock import OWN_DEEDS
from pourwright.actions.port import Bench
from pourwright.shop.move import Move, MoveKind, standing
from pourwright.shop.purchase import Purchase
from pourwright.shop.stock_lot import Held, LotSort
from pourwright.shop.trace import reached

# Lots as far away as each other that are told one by one.
MOST_ALIKE = 8


@dataclass(frozen=True, slots=True)
class MoveLine:
    """A move as a lot sees it; `back` where it was taken back, `own` where it can be from here."""

    move: Move
    into: bool
    back: bool
    own: bool


@dataclass(frozen=True, slots=True)
class TracedLot:
    """A lot on the way; steps are below 0 before the traced lot and above 0 after it.

    `moved_mg` went between it and the traced lot itself.
    """

    held: Held
    steps: int
    loss_mg: int
    moved_mg: int = 0


@dataclass(frozen=True, slots=True)
class LotStock:
    """All that is known of a lot.

    `lots` are those on its way, at most so many as far away; `more` counts the others by steps.
    """

    held: Held
    paper: Purchase | None
    moves: tuple[MoveLine, ...]
    lots: tuple[TracedLot, ...]
    more: Mapping[int, int]
    ways: tuple[tuple[str, str], ...]


def see_lot(bench: Bench, code: str) -> LotStock:
    """The lot of that code. Raises: NotFound."""
    held = bench.stock.lot(code)
    moves = bench.stock.moves(lot=code)
    back = {m.reverses for m in moves}
    up, down = bench.stock.came_from(code), bench.stock.went_to(code)
    ways = dict.fromkeys((m.source, m.target) for m in (*up, *down) if m.source and m.target)
    moved = Counter[str]()
    for m in (*up, *down):
        if code in {m.source, m.target}:
            moved[m.source if m.target == code else m.target] += m.mg
    before = reached(code, [(target, source) for source, target in ways])
    after = reached(code, ways)
    steps = {code: 0} | {k: -n for k, n in before.items()} | after
    levels: dict[int, list[str]] = defaultdict(list)
    for it, n in sorted(steps.items(), key=lambda entry: entry[1]):
        levels[n].append(it)
    return LotStock(
        held=held,
        paper=paper_of(bench, code),
        moves=tuple(_line(m, code, back) for m in moves),
        lots=tuple(
            _traced(bench, it, n, moved[it])
            for n, level in levels.items()
            for it in level[:MOST_ALIKE]
        ),
        more={n: len(level) - MOST_ALIKE for n, level in levels.items() if len(level) > MOST_ALIKE},
        ways=tuple(ways),
    )


def _line(move: Move, code: str, back: set[str]) -> MoveLine:
    gone = move.id in back
    own = move.kind is not MoveKind.REVERSED and move.cause.startswith(OWN_DEEDS)
    return MoveLine(move, move.target == code, gone, own and not gone)


def _traced(bench: Bench, code: str, steps: int, moved_mg: int) -> TracedLot:
    held = bench.stock.lot(code)
    lost = 0
    if held.lot.sort is LotSort.POURED:
        moves = standing(bench.stock.moves(lot=code))
        lost = sum(m.mg for m in moves if m.kind is MoveKind.SCRAPPED and not m.pieces)
    return TracedLot(held, steps, lost, moved_mg)
