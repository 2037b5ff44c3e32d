"""Stock in memory, as the port promises it."""

from __future__ import annotations

from typing import Any, Protocol

from pourwright.actions.port import Event
from pourwright.base.errors import Conflict, NotFound
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.stock_lot import Held, LotSort, StockLot


class Appends(Protocol):
    def append(self, event: Event) -> Any: ...


class FakeStock:
    def __init__(
        self, lots: dict[str, StockLot], moves: list[Move], ledger: Appends, ids: Any
    ) -> None:
        self._lots, self._moves, self._ledger, self._ids = lots, moves, ledger, ids

    def open(self, lot: StockLot) -> None:
        if lot.code in self._lots:
            raise Conflict(f"there is a lot {lot.code} already")
        self._lots[lot.code] = lot
        body = {"sort": lot.sort.value, "item": lot.item, "name": lot.name,
                "baits_each": lot.baits_each}  # fmt: skip
        event = Event(self._ids.fresh(), f"stock/{lot.code}", "opened", lot.opened_at, body)
        self._ledger.append(event)

    def lot(self, code: str) -> Held:
        if code not in self._lots:
            raise NotFound(f"there is no lot {code!r}")
        left = [sum(signed(m, code, name) for m in self._moves) for name in AMOUNTS]
        return Held(self._lots[code], *left)

    def lots(
        self, sort: LotSort | None = None, *, item: str = "", present: bool = False
    ) -> tuple[Held, ...]:
        held = [self.lot(code) for code in self._lots]
        held = [h for h in held if (not sort or h.lot.sort is sort) and item in ("", h.lot.item)]
        shown = [h for h in held if not present or h.mg or h.pieces]
        return tuple(sorted(shown, key=lambda h: (h.lot.opened_at, h.lot.code)))

    def post(self, *moves: Move) -> None:
        for move in moves:
            known = next((m for m in self._moves if m.id == move.id), None)
            if known is None:
                self._refuse(move)
                self._ledger.append(_event(move))
                self._moves.append(move)
            elif known != move:
                raise Conflict(f"the move {move.id} is known with other content")

    def moves(
        self, *, lot: str = "", cause: str = "", since: str = "", before: str = ""
    ) -> tuple[Move, ...]:
        return tuple(
            m for m in self._moves
            if (not lot or lot in (m.source, m.target)) and cause in ("", m.cause)
            and m.at >= since and (not before or m.at < before)
        )  # fmt: skip

    def came_from(self, code: str) -> tuple[Move, ...]:
        return self._reached(code, "target", "source")

    def went_to(self, code: str) -> tuple[Move, ...]:
        return self._reached(code, "source", "target")

    def _reached(self, code: str, near: str, far: str) -> tuple[Move, ...]:
        back = {m.reverses for m in self._moves}
        stand = [m for m in self._moves if m.kind is not MoveKind.REVERSED and m.id not in back]
        reached, fresh = set(), {code}
        while fresh:
            reached |= fresh
            fresh = {getattr(m, far) for m in stand if getattr(m, near) in fresh} - reached - {""}
        return tuple(m for m in stand if getattr(m, near) in reached)

    def _before(self, code: str) -> set[str]:
        """The lots upstream of a lot that plastic comes back to."""
        before = {m.source for m in self.came_from(code) if m.source}
        return {c for c in before if self._lots[c].sort in (LotSort.POT, LotSort.POURED)}

    def _refuse(self, move: Move) -> None:
        for code in filter(None, (move.source, move.target)):
            self.lot(code)
        if move.kind is MoveKind.REVERSED:
            named = [m for m in self._moves if m.id == move.reverses]
            if not named:
                raise NotFound(f"there is no move {move.reverses!r} to take back")
            if named[0].kind is MoveKind.REVERSED:
                raise Conflict("what takes a move back is not taken back itself")
            if any(m.reverses == move.reverses for m in self._moves):
                raise Conflict("that move was taken back already")
        elif move.source and move.target in self._before(move.source):
            raise Conflict("a loop in remelts")
        if move.source:
            held = self.lot(move.source)
            if any(getattr(move, name) > getattr(held, name) for name in AMOUNTS):
                raise Conflict(f"lot {move.source} holds less")


AMOUNTS = ("mg", "pieces", "cost")


def signed(move: Move, code: str, name: str) -> int:
    """What a move brought into a lot; negative for what left it."""
    amount: int = getattr(move, name)
    return amount * (move.target == code) - amount * (move.source == code)


def _event(move: Move) -> Event:
    body = {"kind": move.kind.value, "source": move.source or None, "target": move.target or None,
            "mg": move.mg, "pieces": move.pieces, "cost": move.cost, "cause": move.cause,
            "reverses": move.reverses or None, "note": move.note}  # fmt: skip
    return Event(move.id, f"stock/{move.source or move.target}", "moved", move.at, body)
