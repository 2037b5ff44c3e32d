"""Where a lot came from and went, each in one recursive query."""

from __future__ import annotations

from sqlalchemy import Select, literal, select

from pourwright.shop.move import MoveKind
from pourwright.store.table import MOVE

_TAKEN_BACK = select(MOVE.c.reverses).where(MOVE.c.reverses.is_not(None))
_STANDS = (MOVE.c.kind != MoveKind.REVERSED.value) & MOVE.c.id.not_in(_TAKEN_BACK)


def upstream(code: str) -> Select[tuple[object, ...]]:
    """The moves by which anything came into a lot, however many lots before it."""
    return _reached(code, up=True)


def downstream(code: str) -> Select[tuple[object, ...]]:
    """The moves by which anything of a lot went on, however many lots after it."""
    return _reached(code, up=False)


def _reached(code: str, *, up: bool) -> Select[tuple[object, ...]]:
    """UNION leaves out what was reached before, so that loops end and diamonds count once."""
    near, far = (MOVE.c.target, MOVE.c.source) if up else (MOVE.c.source, MOVE.c.target)
    reached = select(literal(code).label("code")).cte("reached", recursive=True)
    step = select(far).join(reached, near == reached.c.code).where(far.is_not(None), _STANDS)
    reached = reached.union(step)
    return select(MOVE).where(near.in_(select(reached.c.code)), _STANDS).order_by(MOVE.c.place)
