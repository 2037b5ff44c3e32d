"""Lots of stock and their moves; each is an event of the ledger as well."""

from __future__ import annotations

import functools
from collections.abc import Iterable
from typing import Any

from sqlalchemy import (
    Connection,
    RowMapping,
    Select,
    String,
    bindparam,
    func,
    insert,
    select,
    union_all,
)

from pourwright.actions.port import Event, Ids, Ledger
from pourwright.base.errors import Conflict, NotFound
from pourwright.shop.lot import MG
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.stock_lot import Held, LotSort, StockLot
from pourwright.store.table import LOT, MOVE
from pourwright.store.trace import downstream, upstream

OPENED, MOVED = "opened", "moved"
_KINDS = {kind.value: kind for kind in MoveKind}
# Lots that plastic comes back to: only among these can a loop be made.
_COME_BACK = frozenset({LotSort.POT, LotSort.POURED})


class SqlStock:
    """The bench's stock."""

    def __init__(self, connection: Connection, ledger: Ledger, ids: Ids) -> None:
        self._connection = connection
        self._ledger = ledger
        self._ids = ids

    def open(self, lot: StockLot) -> None:
        """Begin a lot. Raises: Conflict if the code is taken."""
        if self._connection.execute(select(LOT.c.code).where(LOT.c.code == lot.code)).first():
            raise Conflict(f"there is a lot {lot.code} already")
        body = {
            "sort": lot.sort.value, "item": lot.item, "name": lot.name,
            "baits_each": lot.baits_each,
        }  # fmt: skip
        event = Event(self._ids.fresh(), f"stock/{lot.code}", OPENED, lot.opened_at, body)
        self._ledger.append(event)
        values = {"code": lot.code, "opened_at": lot.opened_at, "event_id": event.id}
        self._connection.execute(insert(LOT).values(**values, **body))

    def lot(self, code: str) -> Held:
        """A lot and what is in it. Raises: NotFound."""
        row = self._connection.execute(_LOT, {"code": code}).mappings().first()
        if row is None:
            raise NotFound(f"there is no lot {code!r}")
        return Held(_lot(row), *self._left(code))

    def lots(
        self, sort: LotSort | None = None, *, item: str = "", present: bool = False
    ) -> tuple[Held, ...]:
        """Lots of a sort, of an item, oldest first; only those that hold something where asked."""
        query = _held(by_sort=sort is not None, by_item=bool(item))
        values = {"sort": sort.value if sort else "", "item": item}
        rows = self._connection.execute(query, values).mappings()
        held = (Held(_lot(r), r["mg"], r["pieces"], r["cost"]) for r in rows)
        return tuple(h for h in held if not present or h.mg or h.pieces)

    def post(self, *moves: Move) -> None:
        """Keep moves; the same id with the same content again changes nothing.

        Raises: NotFound for a lot that was never begun, Conflict for more than a lot holds, for a
        move taken back twice, for taking back what takes back, and for a loop in remelts.
        """
        for move in moves:
            self._post(move)

    def moves(
        self, *, lot: str = "", cause: str = "", since: str = "", before: str = ""
    ) -> tuple[Move, ...]:
        """Moves in and out of a lot, of a cause, of a time; oldest first."""
        query = select(MOVE).order_by(MOVE.c.place)
        query = query.where((MOVE.c.source == lot) | (MOVE.c.target == lot)) if lot else query
        query = query.where(MOVE.c.cause == cause) if cause else query
        query = query.where(MOVE.c.at >= since) if since else query
        query = query.where(MOVE.c.at < before) if before else query
        return _moves(self._connection.execute(query))

    def came_from(self, code: str) -> tuple[Move, ...]:
        """Every move upstream of a lot, each once; those taken back are none; loops end."""
        return _moves(self._connection.execute(upstream(code)))

    def went_to(self, code: str) -> tuple[Move, ...]:
        """Every move downstream of a lot, each once; those taken back are none; loops end."""
        return _moves(self._connection.execute(downstream(code)))

    def _post(self, move: Move) -> None:
        known = _moves(self._connection.execute(_MOVE, {"id": move.id}))
        if known:
            if known != (move,):
                raise Conflict(f"the move {move.id} is known with other content")
            return
        source = self.lot(move.source) if move.source else None
        target = self.lot(move.target) if move.target else None
        self._refuse_second_taking_back(move)
        if source and target:
            self._refuse_loop(move, source, target)
        if source:
            _refuse_more_than_held(move, source)
        body = {name: value for name, value in _values(move).items() if name not in ("id", "at")}
        subject = f"stock/{move.source or move.target}"
        recorded = self._ledger.append(Event(move.id, subject, MOVED, move.at, body))
        self._connection.execute(_KEPT, {"place": recorded.place, **_values(move)})

    def _refuse_second_taking_back(self, move: Move) -> None:
        if move.kind is not MoveKind.REVERSED:
            return
        query = select(MOVE).where(MOVE.c.id == move.reverses)
        row = self._connection.execute(query).mappings().first()
        if row is None:
            raise NotFound(f"there is no move {move.reverses!r} to take back")
        if row["kind"] == MoveKind.REVERSED.value:
            raise Conflict(
                "what takes a move back is not taken back itself: enter the move anew instead"
            )
        twice = select(MOVE.c.at).where(MOVE.c.reverses == move.reverses)
        at = self._connection.execute(twice).scalar()
        if at is not None:
            raise Conflict(f"that move was taken back already, on {at[:10]}")

    def _refuse_loop(self, move: Move, source: Held, target: Held) -> None:
        if move.kind is MoveKind.REVERSED or target.lot.sort not in _COME_BACK:
            return
        before = {m.source for m in self.came_from(source.lot.code)}
        if target.lot.code in before:
            raise Conflict(
                f"a loop in remelts: {source.lot.name} ({source.lot.code}) already holds plastic "
                f"from {target.lot.name} ({target.lot.code}); begin a new lot for what goes back"
            )

    def _left(self, code: str) -> tuple[int, int, int]:
        row = self._connection.execute(_LEFT, {"code": code}).one()
        return row[0], row[1], row[2]


@functools.cache
def _held(*, by_sort: bool, by_item: bool) -> Any:
    """Lots and what is in them, the oldest first."""
    wanted = select(LOT)
    wanted = wanted.where(LOT.c.sort == bindparam("sort")) if by_sort else wanted
    wanted = wanted.where(LOT.c.item == bindparam("item")) if by_item else wanted
    lots = wanted.subquery()
    ends = _ends(select(lots.c.code) if by_sort or by_item else None).subquery()
    return (
        select(lots, *_sums(ends))
        .outerjoin_from(lots, ends, ends.c.code == lots.c.code)
        .group_by(lots.c.code)
        .order_by(lots.c.opened_at, lots.c.code)
    )


def _sums(ends: Any) -> list[Any]:
    return [func.coalesce(func.sum(ends.c[n]), 0).label(n) for n in ("mg", "pieces", "cost")]


def _ends(codes: Select[Any] | None) -> Any:
    """Both ends of every move of these lots, or of all: what came in counts up, out down."""
    ends = []
    for end, sign in ((MOVE.c.target, 1), (MOVE.c.source, -1)):
        amounts = [(sign * MOVE.c[n]).label(n) for n in ("mg", "pieces", "cost")]
        query = select(end.label("code"), *amounts)
        ends.append(query.where(end.is_not(None) if codes is None else end.in_(codes)))
    return union_all(*ends)


# Built once: building a query took longer than running it.
_LOT = select(LOT).where(LOT.c.code == bindparam("code"))
_MOVE = select(MOVE).where(MOVE.c.id == bindparam("id"))
_KEPT = insert(MOVE)
_LEFT = select(*_sums(_ends(select(bindparam("code", type_=String))).subquery()))


def _refuse_more_than_held(move: Move, source: Held) -> None:
    if move.pieces > source.pieces:
        raise Conflict(
            f"lot {source.lot.code} ({source.lot.name}) holds {source.pieces} pieces, "
            f"not {move.pieces}"
        )
    if move.mg > source.mg:
        raise Conflict(
            f"lot {source.lot.code} ({source.lot.name}) holds {source.mg / MG:.12g} g, "
            f"not {move.mg / MG:.12g} g"
        )
    if move.cost > source.cost:
        raise Conflict(f"lot {source.lot.code} ({source.lot.name}) is not worth so much")


def _values(move: Move) -> dict[str, Any]:
    return {
        "id": move.id, "at": move.at, "kind": move.kind.value, "source": move.source or None,
        "target": move.target or None, "mg": move.mg, "pieces": move.pieces, "cost": move.cost,
        "cause": move.cause, "reverses": move.reverses or None, "note": move.note,
    }  # fmt: skip


def _moves(rows: Iterable[Any]) -> tuple[Move, ...]:
    """Moves of rows in the order of the table's columns; a long trace reads thousands of them."""
    return tuple(
        Move(
            id=key, at=at, kind=_KINDS[kind], source=source or "", target=target or "", mg=mg,
            pieces=pieces, cost=cost, cause=cause, reverses=reverses or "", note=note,
        )
        for _, key, at, kind, source, target, mg, pieces, cost, cause, reverses, note in rows
    )  # fmt: skip


def _lot(row: RowMapping) -> StockLot:
    return StockLot(
        code=row["code"], sort=LotSort(row["sort"]), item=row["item"],
        opened_at=row["opened_at"], name=row["name"], baits_each=row["baits_each"],
    )  # fmt: skip
