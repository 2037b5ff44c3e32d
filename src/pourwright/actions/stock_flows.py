"""What the moves of the stock come to in money: what was sold, bought, and what is left."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence

from pourwright.actions.port import Bench
from pourwright.shop.money import Money
from pourwright.shop.move import Move, MoveKind

Day = Callable[[str], str]
"""The maker's own calendar day of a UTC time."""


def cost_of_causes(moves: Iterable[Move]) -> Counter[str]:
    """What was sold cost, in ten-thousandths, by cause such as `sale/ab12…`; as it left."""
    found: Counter[str] = Counter()
    for move in moves:
        if move.kind is MoveKind.SOLD:
            found[move.cause] += move.cost
    return found


def bought_by_month(bench: Bench, moves: Iterable[Move], day: Day) -> Counter[str]:
    """What was bought, in ten-thousandths, by month; less what was taken back in it."""
    found: Counter[str] = Counter()
    known: dict[str, Move] = {}
    for move in moves:
        known[move.id] = move
        if move.kind is MoveKind.BOUGHT:
            found[day(move.at)[:7]] += move.cost
        elif move.kind is MoveKind.REVERSED and not move.target:
            undone = known.get(move.reverses) or _original(bench, move)
            if undone.kind is MoveKind.BOUGHT:
                found[day(move.at)[:7]] -= move.cost
    return found


def stock_ends(
    bench: Bench, moves: Sequence[Move], months: Sequence[str], day: Day
) -> dict[str, Money]:
    """What all lots were worth at the end of each month; `moves` are all since the first began."""
    change: Counter[str] = Counter()
    for move in moves:
        change[day(move.at)[:7]] += move.cost * ((not move.source) - (not move.target))
    worth = sum(held.cost for held in bench.stock.lots())
    worth -= sum(amount for month, amount in change.items() if month > months[-1])
    ends = {}
    for month in reversed(months):
        ends[month] = Money(worth)
        worth -= change[month]
    return ends


def _original(bench: Bench, move: Move) -> Move:
    return next(it for it in bench.stock.moves(lot=move.source) if it.id == move.reverses)
