"""Take back all that one deed moved."""

from __future__ import annotations

from pourwright.actions.moved_id import moved_id
from pourwright.actions.port import World
from pourwright.base.errors import NotFound
from pourwright.shop.move import contrary, standing


def undo_moves(world: World, cause: str, *, key: str) -> None:
    """Post the contrary of every move of a cause, the newest first.

    What was taken back already stays so; the same `key` again changes nothing. Raises: NotFound
    for a deed nobody did, Conflict where what it moved has gone on.
    """
    with world.bench() as bench:
        moves = bench.stock.moves(cause=cause)
        if not moves:
            raise NotFound("nothing was moved by that")
        now, left = world.clock.now(), standing(moves)
        bench.stock.post(*(
            contrary(move, id=moved_id(key, i), at=now, note="taken back")
            for i, move in enumerate(reversed(left))
        ))  # fmt: skip
        bench.commit()
