"""Bag finished baits: from one poured lot or several into a bagged lot."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from pourwright.actions.bag_doubt import Doubted, bag_doubts, packing_doubt
from pourwright.actions.bait_kind import BaitKind, BaitKinds
from pourwright.actions.baits_set_aside import baits_set_aside
from pourwright.actions.moved_id import moved_id
from pourwright.actions.port import Bench, World
from pourwright.actions.stock_share import share_of
from pourwright.base.errors import BadInput, Conflict
from pourwright.base.field import flag, number, parts, reference, text
from pourwright.base.record import Record
from pourwright.shop.code import BAGGED, lot_code, number_in
from pourwright.shop.material import Packing
from pourwright.shop.move import Move, MoveKind, standing
from pourwright.shop.stock_lot import Held, LotSort, StockLot


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken(Record):
    """Baits taken out of a poured lot."""

    lot: str = text("Lot", most=24)
    baits: int = number("Baits", low=1, high=100_000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bagging(Record):
    """What is put into bags, all alike."""

    taken: tuple[Taken, ...] = parts("Lots they come from", least=1, most=20)
    baits_each: int = number("Baits to a bag", low=1, high=200)
    packing: str = reference("Bag or box of each", refers="packing", default="")
    anyway: bool = flag("In spite of what was said against it")

    def check(self) -> None:
        """Refuse a lot named twice, and bags that would not all be full."""
        lots = [it.lot for it in self.taken]
        if len(set(lots)) < len(lots):
            raise BadInput("taken", ", ".join(lots), "names a lot twice")
        over = self.baits % self.baits_each
        if over:
            why = f"{self.baits} baits in bags of {self.baits_each} leave {over} over"
            raise BadInput("baits_each", self.baits_each, why)

    @property
    def baits(self) -> int:
        """Baits in all."""
        return sum(it.baits for it in self.taken)

    @property
    def bags(self) -> int:
        """Bags they make."""
        return self.baits // self.baits_each


def bag_baits(world: World, bagging: Bagging, *, key: str) -> Held:
    """The bagged lot. The same `key` a second time changes nothing.

    Raises: NotFound; BadInput for baits that do not belong in one bag; Conflict for more than is
    there and free; Doubted for what speaks against it, unless it is to be done anyway.
    """
    with world.bench() as bench:
        held = bag_in(bench, bagging, key=key, at=world.clock.now())
        bench.commit()
    return held


def bag_in(bench: Bench, bagging: Bagging, *, key: str, at: str) -> Held:
    """The same within a unit of work that others share."""
    known = bench.stock.moves(cause=bag_cause(key))
    if known:
        return bench.stock.lot(next(m.target for m in known if m.kind is MoveKind.BAGGED))
    held = _lots(bench, bagging)
    kind = _one_kind(bench, bagging, held)
    _refuse_unknown_packing(bench, bagging.packing)
    doubts = (
        *bag_doubts(bench, held, at), *packing_doubt(bench, bagging.packing, bagging.bags),
    )  # fmt: skip
    if doubts and not bagging.anyway:
        raise Doubted(doubts)
    lot = _bag_lot(bench, kind, bagging, at)
    bench.stock.open(lot)
    bench.stock.post(
        *_moves(bench, bagging, held, lot.code, key=key, at=at),
        *_packing_moves(bench, bagging, key=key, at=at),
    )
    return bench.stock.lot(lot.code)


@dataclass(frozen=True, slots=True)
class Bagged:
    """What a bagging made."""

    lot: StockLot
    bags: int


def bagged_by(bench: Bench, key: str) -> Bagged | None:
    """What a bagging made; none where nothing did, or it was taken back since."""
    moves = [m for m in standing(bench.stock.moves(cause=bag_cause(key)))
             if m.kind is MoveKind.BAGGED]  # fmt: skip
    if not moves:
        return None
    lot = bench.stock.lot(moves[0].target).lot
    return Bagged(lot, sum(m.pieces for m in moves) // lot.baits_each)


def bag_cause(key: str) -> str:
    """What the moves of a bagging belong to."""
    return f"bagging/{key}"


def _lots(bench: Bench, bagging: Bagging) -> tuple[Held, ...]:
    """The lots, each with enough that nobody has set aside."""
    aside = baits_set_aside(bench)
    return tuple(_enough(bench, it, aside.get(it.lot, 0)) for it in bagging.taken)


def _enough(bench: Bench, it: Taken, aside: int) -> Held:
    held = bench.stock.lot(it.lot)
    if held.lot.sort is not LotSort.POURED:
        raise BadInput("taken", it.lot, "is no poured lot: only loose baits are bagged")
    if it.baits > held.pieces - aside:
        kept = f", {aside} of them set aside for orders" if aside else ""
        raise Conflict(f"{held.lot.name}, {it.lot}, holds {held.pieces} baits{kept}")
    return held


def _one_kind(bench: Bench, bagging: Bagging, lots: tuple[Held, ...]) -> BaitKind:
    """The bait they share, and their look; no look where there are several, alike in each bag."""
    kinds = BaitKinds(bench)
    found = [kinds.of(held.lot) for held in lots]
    baits = {kind.bait for kind in found}
    if len(baits) > 1:
        names = " and ".join(sorted({kinds.bait_name(kind) for kind in found}))
        raise BadInput("taken", names, "are different baits: bag each on its own")
    per_look: Counter[str] = Counter()
    for kind, it in zip(found, bagging.taken, strict=True):
        per_look[kind.look] += it.baits
    if len(per_look) == 1:
        return found[0]
    for look, baits_of in per_look.items():
        if baits_of % bagging.bags:
            name = kinds.look_name(BaitKind("", look))
            why = f"{baits_of} of {name} cannot be shared out evenly over {bagging.bags} bags"
            raise BadInput("taken", baits_of, why)
    return BaitKind(found[0].bait, "")


def _refuse_unknown_packing(bench: Bench, id: str) -> None:
    if id and id not in {stored.id for stored in bench.records.all(Packing.key)}:
        raise BadInput("packing", id, "is not on the shelf: pick one from the list")


def _bag_lot(bench: Bench, kind: BaitKind, bagging: Bagging, now: str) -> StockLot:
    kinds = BaitKinds(bench)
    return StockLot(
        code=lot_code(date=now[:10], number=_next_number(bench), letter=BAGGED),
        sort=LotSort.BAGGED,
        item=kind.item,
        opened_at=now,
        name=f"{kinds.bait_name(kind)}, {kinds.look_name(kind)}",
        baits_each=bagging.baits_each,
    )


def _next_number(bench: Bench) -> int:
    numbers = (number_in(held.lot.code) for held in bench.stock.lots(LotSort.BAGGED))
    return 1 + max(numbers, default=0)


def _moves(
    bench: Bench, bagging: Bagging, lots: tuple[Held, ...], code: str, *, key: str, at: str
) -> Iterator[Move]:
    for i, (held, it) in enumerate(zip(lots, bagging.taken, strict=True)):
        share = share_of(bench, held, it.baits)
        yield Move(
            id=moved_id(key, i), at=at, kind=MoveKind.BAGGED, source=held.lot.code, target=code,
            mg=share.mg, pieces=share.pieces, cost=share.cost, cause=bag_cause(key),
        )  # fmt: skip


def _packing_moves(bench: Bench, bagging: Bagging, *, key: str, at: str) -> Iterator[Move]:
    """Bags taken off the shelf, the oldest lot first, as far as they are in stock.

    They leave for no lot: what a lot of bags holds is counted in baits.
    """
    left, place = bagging.bags, len(bagging.taken)
    for held in bench.stock.lots(item=f"packing/{bagging.packing}", present=True):
        pieces = min(left, held.pieces)
        if pieces:
            share = share_of(bench, held, pieces)
            yield Move(
                id=moved_id(key, place), at=at, kind=MoveKind.USED, source=held.lot.code,
                mg=share.mg, pieces=pieces, cost=share.cost, cause=bag_cause(key),
            )  # fmt: skip
            left, place = left - pieces, place + 1
