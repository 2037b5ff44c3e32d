"""Sell what lies finished without an order: at the door, at a show."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from pourwright.actions.bait_kind import BaitKind, BaitKinds
from pourwright.actions.finished_stock import free_stock
from pourwright.actions.offered import price_of_pack
from pourwright.actions.port import Bench, World
from pourwright.actions.sale_entry import LineTax, SaleEntry
from pourwright.actions.sales_of import KeptSale
from pourwright.actions.sell import sell
from pourwright.base.errors import BadInput, NotFound
from pourwright.base.field import number, parts, reference
from pourwright.shop.money import Money
from pourwright.shop.order import Customer
from pourwright.shop.sale import Sale, SaleLine
from pourwright.shop.stock_lot import Held, LotSort

FREE_LOT = "free_lot"
"""What a line's lot refers to: finished baits that no order has set aside."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DoorLine(LineTax):
    """Packs out of one lot."""

    lot: str = reference("What it is", refers=FREE_LOT)
    packs: int = number("Packs", low=1, high=20_000)
    baits_each: int | None = number("Baits to a pack, if loose", low=1, high=200, default=None)
    price_money: float | None = number(
        "Price of a pack, if not that of the list", low=0, high=10_000, default=None
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class DoorEntry(SaleEntry):
    """What a person enters of a sale without an order."""

    lines: tuple[DoorLine, ...] = parts("What is sold", least=1, most=60)
    customer: str = reference("Customer, if you keep one", refers="customer", default="")


@dataclass(frozen=True, slots=True)
class FreeLot:
    """Finished baits of a lot that nobody has set aside; `bagged` is 0 where they lie loose."""

    lot: str
    kind: BaitKind
    bait: str
    look: str
    bagged: int
    free: int

    @property
    def words(self) -> str:
        """What there is of it."""
        if not self.bagged:
            return f"{self.free} loose {'bait' if self.free == 1 else 'baits'}"
        bags = self.free // self.bagged
        return f"{bags} {'bag' if bags == 1 else 'bags'} of {self.bagged}"


def free_lots(bench: Bench) -> tuple[FreeLot, ...]:
    """Everything that can be sold, by bait and look; bags before loose ones, the oldest first."""
    kinds = BaitKinds(bench)
    found = (
        FreeLot(it.lot, kind, kinds.bait_name(kind), kinds.look_name(kind), it.bagged, it.free)
        for kind, shelves in free_stock(bench).items()
        for it in shelves
        if it.free >= it.bagged
    )
    return tuple(sorted(found, key=lambda it: (it.bait, it.look)))


def sell_at_door(world: World, entry: DoorEntry, *, key: str) -> KeptSale:
    """The sale, kept under `key`; the same key a second time changes nothing.

    Raises: NotFound for a lot nobody began; BadInput for a lot that holds no baits, a pack of a
    size it is not bagged by, and a price that nobody said; Conflict for more than is there and
    free.
    """
    with world.reading() as bench:
        sale = door_sale(bench, entry)
    return sell(world, sale, key=key)


def door_sale(bench: Bench, entry: DoorEntry) -> Sale:
    """The sale as it would be written down. Raises: NotFound, BadInput."""
    _refuse_unknown(bench, entry.customer)
    return Sale(
        sold_on=entry.sold_on, customer=entry.customer, channel=entry.channel,
        lines=tuple(_lines(bench, entry)), delivery_money=entry.delivery_money,
        delivery_inside=entry.delivery_inside, delivery_proof=entry.delivery_proof,
        fees_money=entry.fees_money, note=entry.note,
    )  # fmt: skip


def _refuse_unknown(bench: Bench, customer: str) -> None:
    try:
        if customer:
            bench.records.get(Customer.key, customer)
    except NotFound as error:
        raise BadInput("customer", customer, "is not on the list of customers") from error


def _lines(bench: Bench, entry: DoorEntry) -> Iterator[SaleLine]:
    """Every line with its price; packs of one sort count together for the list's steps."""
    kinds, sorts, together = BaitKinds(bench), [], Counter[tuple[BaitKind, int]]()
    for i, line in enumerate(entry.lines):
        held = bench.stock.lot(line.lot)
        if held.lot.sort not in {LotSort.POURED, LotSort.BAGGED}:
            raise BadInput(f"lines[{i}].lot", line.lot, "holds no finished baits")
        sorts.append((kinds.of(held.lot), _each(held, line, i)))
        together[sorts[-1]] += line.packs
    for i, (line, (kind, each)) in enumerate(zip(entry.lines, sorts, strict=True)):
        yield SaleLine(
            bait=kind.bait, look=kind.look, lot=line.lot, packs=line.packs, baits_each=each,
            price_money=_price(bench, line, kind, each, together[kind, each], i).amount,
            tax_way=line.tax_way, exempt=line.exempt, proof=line.proof,
        )  # fmt: skip


def _each(held: Held, line: DoorLine, place: int) -> int:
    bagged = held.lot.baits_each if held.lot.sort is LotSort.BAGGED else 0
    if line.baits_each is None and not bagged:
        why = "these lie loose: say how many make a pack, 1 for single baits"
        raise BadInput(f"lines[{place}].baits_each", None, why)
    if line.baits_each not in {None, bagged} and bagged:
        why = f"lot {held.lot.code} is bagged by {bagged}"
        raise BadInput(f"lines[{place}].baits_each", line.baits_each, why)
    return line.baits_each or bagged


def _price(
    bench: Bench, line: DoorLine, kind: BaitKind, each: int, together: int, place: int
) -> Money:
    if line.price_money is not None:
        return Money.of(line.price_money)
    listed = price_of_pack(bench, kind.bait, kind.look, together, each)
    if listed is None:
        why = f"the price list has no pack of {each} of it: type what was asked"
        raise BadInput(f"lines[{place}].price_money", None, why)
    return listed
