"""Send an order: what was set aside for it is sold."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pourwright.actions.kept_order import open_order_at
from pourwright.actions.offered import price_of_pack
from pourwright.actions.port import Bench, World
from pourwright.actions.sale_entry import LineTax, SaleEntry
from pourwright.actions.sales_of import KeptSale, sale_of
from pourwright.actions.sell import sell
from pourwright.base.errors import BadInput, Conflict
from pourwright.base.field import number, parts
from pourwright.shop.allot import trimmed
from pourwright.shop.money import Money
from pourwright.shop.order import Order, OrderLine
from pourwright.shop.sale import Sale, SaleLine


@dataclass(frozen=True, slots=True, kw_only=True)
class PricedLine(LineTax):
    """What leaves of a line, and for how much.

    Left out, all that is set aside leaves, at the price that was agreed.
    """

    packs: int | None = number("Packs that leave now", low=0, high=20_000, default=None)
    price_money: float | None = number("Price of a pack", low=0, high=10_000, default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class SendEntry(SaleEntry):
    """What a person enters when a parcel leaves."""

    lines: tuple[PricedLine, ...] = parts("Prices", least=1, most=60)


def send_order(world: World, id: str, entry: SendEntry, *, key: str) -> KeptSale:
    """The sale by which an order, or a part of it, leaves; the same key again changes nothing.

    Raises: NotFound; BadInput for a line too few or too many, for more packs than are set aside
    and for a price that nobody said; Conflict where nothing is set aside.
    """
    with world.reading() as bench:
        if bench.ledger.of(f"sale/{key}"):
            return sale_of(bench, key)
        sale = sale_by(bench, open_order_at(bench, id)[1], entry, id)
    return sell(world, sale, key=key)


def sale_by(bench: Bench, order: Order, entry: SendEntry, id: str) -> Sale:
    """The sale of what leaves of an order. Raises: BadInput, Conflict."""
    if len(entry.lines) != len(order.lines):
        why = f"the order has {len(order.lines)} lines: say for each what leaves"
        raise BadInput("lines", len(entry.lines), why)
    if not any(line.aside for line in order.lines):
        raise Conflict("nothing of the order is set aside: set aside what leaves first")
    return Sale(
        sold_on=entry.sold_on, order=id, customer=order.customer, channel=entry.channel,
        lines=tuple(
            sold
            for i, (line, priced) in enumerate(zip(order.lines, entry.lines, strict=True))
            for sold in _sold(bench, line, priced, i)
        ),
        delivery_money=entry.delivery_money, delivery_inside=entry.delivery_inside,
        delivery_proof=entry.delivery_proof, fees_money=entry.fees_money, note=entry.note,
    )  # fmt: skip


def price_asked(bench: Bench, line: OrderLine) -> Money | None:
    """The price of a pack: as the order says, else that of the list for all that is ordered."""
    if line.price_money is not None:
        return Money.of(line.price_money)
    return price_of_pack(bench, line.bait, line.look, line.packs, line.baits_each)


def asked_in_all(bench: Bench, order: Order) -> Money | None:
    """What the goods of an order are asked at; none where a pack of it has no price."""
    prices = [(price_asked(bench, line), line.packs) for line in order.lines]
    if any(price is None for price, _ in prices):
        return None
    return sum((price * packs for price, packs in prices if price is not None), Money(0))


def _sold(bench: Bench, line: OrderLine, priced: PricedLine, place: int) -> Iterator[SaleLine]:
    packs = line.aside if priced.packs is None else priced.packs
    if packs > line.aside:
        why = f"{line.aside} packs are set aside: set aside more, or send fewer"
        raise BadInput(f"lines[{place}].packs", packs, why)
    if not packs:
        return
    asked = price_asked(bench, line) if priced.price_money is None else Money.of(priced.price_money)
    if asked is None:
        why = "neither the order nor the price list says one: type what was asked"
        raise BadInput(f"lines[{place}].price_money", None, why)
    for it in trimmed(line.set_aside, packs):
        yield SaleLine(
            bait=line.bait, look=line.look, lot=it.lot, packs=it.packs,
            baits_each=line.baits_each, price_money=asked.amount, tax_way=priced.tax_way,
            exempt=priced.exempt, proof=priced.proof,
        )  # fmt: skip
