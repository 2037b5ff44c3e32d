"""Count a lot, throw some of it away, take a move back."""

from __future__ import annotations

from pourwright.actions.port import Bench, World
from pourwright.actions.post_count import count_lot
from pourwright.actions.post_material import Deed, keep_balance
from pourwright.base.errors import BadInput, Conflict, NotFound
from pourwright.shop.move import Move, MoveKind, contrary, standing
from pourwright.shop.stock_lot import Held, LotSort

MOST_NOTE = 200
# Deeds that are taken back from a lot's own page; the others have their page.
OWN_DEEDS = ("buy/", "count/", "scrap/")
_SHELVED = frozenset({LotSort.MATERIAL, LotSort.POT})


def count_stock(world: World, code: str, *, mg: int = 0, pieces: int = 0, key: str) -> None:
    """A lot of a material or pot holds so much: the difference is moved.

    Raises: NotFound; BadInput for a lot of baits.
    """
    with world.bench() as bench:
        deed = Deed(key, world.clock.now(), f"count/{key}")
        held = _shelved(bench, code)
        if bench.stock.moves(cause=deed.cause):
            return
        count_lot(bench, held, mg, pieces, deed)
        keep_balance(bench, held.lot.item)
        bench.commit()


def scrap_stock(
    world: World, code: str, *, mg: int = 0, pieces: int = 0, note: str = "", key: str
) -> None:
    """Throw some of a lot away. Raises: NotFound, BadInput; Conflict for more than it holds."""
    with world.bench() as bench:
        deed = Deed(key, world.clock.now(), f"scrap/{key}")
        held = _shelved(bench, code)
        if bench.stock.moves(cause=deed.cause):
            return
        if not (mg or pieces):
            raise BadInput("amount", mg, "must be more than 0")
        if len(note) > MOST_NOTE:
            raise BadInput("note", note, f"must be at most {MOST_NOTE} characters")
        bench.stock.post(Move(
            id=deed.next_id(), at=deed.at, kind=MoveKind.SCRAPPED, source=code, mg=mg,
            pieces=pieces, cost=held.cost_of(mg=mg, pieces=pieces), cause=deed.cause, note=note,
        ))  # fmt: skip
        keep_balance(bench, held.lot.item)
        bench.commit()


def reverse_move(world: World, code: str, move_id: str, *, key: str) -> None:
    """Take back a move of a lot, with all that was moved by the same deed, the newest first.

    The same `key` again changes nothing.
    Raises: NotFound for a move the lot does not have; Conflict for one taken back already, for a
    reversal, for what belongs to a batch or a sale, and where what came has gone on.
    """
    with world.bench() as bench:
        moves = {m.id: m for m in bench.stock.moves(lot=code)}
        if move_id not in moves:
            raise NotFound(f"lot {code} has no move {move_id!r}")
        move = moves[move_id]
        if Deed(key, "", "").next_id() in {m.id for m in bench.stock.moves(cause=move.cause)}:
            return
        deed = Deed(key, world.clock.now(), move.cause)
        if move.kind is not MoveKind.REVERSED and not move.cause.startswith(OWN_DEEDS):
            raise Conflict(
                "this move belongs to a batch, a bagging or a sale: correct that, and the stock "
                "follows"
            )
        group = [move] if move.kind is MoveKind.REVERSED else _deed_of(bench, move)
        for it in reversed(group):
            bench.stock.post(contrary(it, id=deed.next_id(), at=deed.at, note="taken back"))
        keep_balance(bench, bench.stock.lot(code).lot.item)
        bench.commit()


def _deed_of(bench: Bench, move: Move) -> list[Move]:
    """The moves of one deed that still stand; the move itself at least, to be refused in words."""
    stands = standing(bench.stock.moves(cause=move.cause))
    return stands if move in stands else [move]


def _shelved(bench: Bench, code: str) -> Held:
    held = bench.stock.lot(code)
    if held.lot.sort not in _SHELVED:
        raise BadInput("lot", code, "holds baits: they are counted and taken out on the rack")
    return held
