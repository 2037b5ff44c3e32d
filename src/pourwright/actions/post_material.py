"""Take materials from their lots, and keep what the shelf says in step with the lots."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from uuid import UUID, uuid5

from pourwright.actions.port import Bench, Stored
from pourwright.actions.stock_lot_opening import item_of, open_lot, record_of
from pourwright.base.errors import NotFound
from pourwright.shop.lot import MG
from pourwright.shop.material import Material
from pourwright.shop.money import Money, as_typed
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.stock_lot import Held

BEFORE = "there before the books of the stock began"
FOUND = "used, though the books had no more: found by the pour"


@dataclass(slots=True)
class Deed:
    """One deed that posts moves: when, why, and ids that the same deed always makes the same."""

    key: str
    at: str
    cause: str
    made: int = 0

    def next_id(self) -> str:
        """The id of its next move."""
        self.made += 1
        return uuid5(UUID(hex=self.key), str(self.made)).hex


@dataclass(frozen=True, slots=True)
class Took:
    """What was taken, and how much of it the books did not know of."""

    name: str
    mg: int
    found_mg: int

    @property
    def words(self) -> str:
        """What was found, as it is said."""
        return f"the books had {self.found_mg / MG:g} g less than was used of {self.name}: count it"


def material(bench: Bench, item: str) -> tuple[Stored, Material] | None:
    """The material that an item names; none for what is counted by the piece, or is gone."""
    try:
        stored = bench.records.get(*record_of(item))
    except NotFound:
        return None
    return (stored, stored.noun) if isinstance(stored.noun, Material) else None


def lots_of(bench: Bench, item: str, deed: Deed) -> tuple[Held, ...]:
    """The lots of a material or pot that hold something, the oldest first.

    What the shelf held before it had lots becomes its first one, of unknown beginning.
    """
    held = bench.stock.lots(item=item)
    if held:
        return tuple(h for h in held if h.mg or h.pieces)
    found = material(bench, item)
    if found is None or not found[1].on_hand_g:
        return ()
    mg = round(found[1].on_hand_g * MG)
    lot = open_lot(bench, item, found[1].name, at=deed.at)
    bench.stock.post(Move(
        id=deed.next_id(), at=deed.at, kind=MoveKind.COUNTED, target=lot.code, mg=mg,
        cost=worth_as_bought(found[1], mg), note=BEFORE,
    ))  # fmt: skip
    return (bench.stock.lot(lot.code),)


def worth_as_bought(noun: Material, mg: int) -> int:
    """What so much is worth at the price of the package; 0 where that is not known."""
    if not noun.package_g or noun.package_price_money is None:
        return 0
    share = as_typed(mg) / MG / as_typed(noun.package_g)
    return (Money.of(noun.package_price_money) * share).ten_thousandths


def worth_like(lots: Iterable[Held], noun: Material | None, mg: int) -> int:
    """What so much is worth at the average of what lies there, else at the price of the package."""
    there = tuple(lots)
    held = sum(h.mg for h in there)
    if held:
        return sum(h.cost for h in there) * mg // held
    return worth_as_bought(noun, mg) if noun else 0


def take(bench: Bench, item: str, mg: int, *, target: str, deed: Deed) -> Took:
    """Move so much of a material or pot into a lot, from its oldest lots on.

    What the books do not hold is found first, in a lot of its own, at the average worth of what is
    there; at the price of the package where nothing is.
    """
    lots = _not_after(bench, lots_of(bench, item, deed), target)
    found = max(0, mg - sum(h.mg for h in lots))
    name = _name(bench, item)
    if found:
        lots = (*lots, _found(bench, item, name, lots, found, deed))
    bench.stock.post(*drawn(lots, mg, target, deed, kind=MoveKind.USED))
    keep_balance(bench, item)
    return Took(name, mg, found)


def drawn(
    lots: Iterable[Held], mg: int, target: str, deed: Deed, *, kind: MoveKind
) -> Iterator[Move]:  # fmt: skip
    """So much out of lots into another, from the first of them on."""
    for held in lots:
        part = min(mg, held.mg)
        if part:
            mg -= part
            yield Move(
                id=deed.next_id(), at=deed.at, kind=kind, source=held.lot.code,
                target=target, mg=part, cost=held.cost_of(mg=part), cause=deed.cause,
            )  # fmt: skip


def _not_after(bench: Bench, lots: tuple[Held, ...], target: str) -> tuple[Held, ...]:
    """Without lots that hold plastic of the target itself: it cannot have been made of them."""
    after = {m.target for m in bench.stock.went_to(target)}
    return tuple(h for h in lots if h.lot.code not in after)


def _found(
    bench: Bench, item: str, name: str, lots: Iterable[Held], mg: int, deed: Deed
) -> Held:  # fmt: skip
    known = material(bench, item)
    lot = open_lot(bench, item, name, at=deed.at)
    bench.stock.post(Move(
        id=deed.next_id(), at=deed.at, kind=MoveKind.COUNTED, target=lot.code, mg=mg,
        cost=worth_like(lots, known[1] if known else None, mg), note=FOUND,
    ))  # fmt: skip
    return bench.stock.lot(lot.code)


def _name(bench: Bench, item: str) -> str:
    try:
        return bench.records.get(*record_of(item)).noun.name
    except NotFound:
        return record_of(item)[1]


def keep_balance(bench: Bench, item: str) -> None:
    """Let the shelf say what the lots hold."""
    known = material(bench, item)
    if known is None or known[0].retired:
        return
    stored, noun = known
    on_hand_g = sum(h.mg for h in bench.stock.lots(item=item)) / MG
    if noun.on_hand_g == on_hand_g:
        return
    kept = dataclasses.replace(noun, on_hand_g=on_hand_g)
    bench.records.save(stored.sort, stored.id, kept, expected_version=stored.version)


def item_by_id(bench: Bench, sorts: Iterable[str], id: str) -> str:
    """The item of a record whose sort is one of several; empty where it was never on the shelf."""
    for sort in sorts:
        try:
            bench.records.get(sort, id)
        except NotFound:
            continue
        return item_of(sort, id)
    return ""
