"""Send an order: what was set aside for it is sold."""

from __future__ import annotations

from dataclasses import dataclass, replace

from pourwright.actions.kept_order import order_at
from pourwright.actions.offered import price_of_pack
from pourwright.actions.port import Bench, World
from pourwright.actions.sale_entry import LineTax, SaleEntry
from pourwright.actions.sales_of import KeptSale
from pourwright.actions.sell import sale_lines, sell
from pourwright.base.errors import BadInput
from pourwright.base.field import number, parts
from pourwright.shop.money import Money
from pourwright.shop.order import Order, OrderLine
from pourwright.shop.sale import Sale, SaleLine


@dataclass(frozen=True, slots=True, kw_only=True)
class PricedLine(LineTax):
    """What a line of the order is sold for."""

    price_money: float = number("Price of a pack, as asked", low=0, high=10_000)


@dataclass(frozen=True, slots=True, kw_only=True)
class SendEntry(SaleEntry):
    """What a person enters when a parcel leaves."""

    lines: tuple[PricedLine, ...] = parts("Prices", least=1, most=60)


def send_order(world: World, id: str, entry: SendEntry, *, key: str) -> KeptSale:
    """The sale by which an order leaves; the same key a second time changes nothing.

    Raises: NotFound; BadInput for a price too few or too many; Conflict for what is not set aside.
    """
    with world.reading() as bench:
        sale = sale_by(order_at(bench, id)[1], entry, id)
    return sell(world, sale, key=key)


def sale_by(order: Order, entry: SendEntry, id: str) -> Sale:
    """The sale of all that is set aside for an order. Raises: BadInput."""
    if len(entry.lines) != len(order.lines):
        why = f"the order has {len(order.lines)} lines: give a price for each"
        raise BadInput("lines", len(entry.lines), why)
    return Sale(
        sold_on=entry.sold_on, order=id, customer=order.customer, channel=entry.channel,
        lines=tuple(
            _priced(sold, priced)
            for line, priced in zip(order.lines, entry.lines, strict=True)
            for sold in sale_lines(line)
        ),
        delivery_money=entry.delivery_money, delivery_inside=entry.delivery_inside,
        delivery_proof=entry.delivery_proof, fees_money=entry.fees_money, note=entry.note,
    )  # fmt: skip


def price_asked(bench: Bench, line: OrderLine) -> Money | None:
    """The price of a pack: as it was typed into the order, else that of the price list."""
    if line.price_money is not None:
        return Money.of(line.price_money)
    return price_of_pack(bench, line.bait, line.look, line.packs, line.baits_each)


def _priced(sold: SaleLine, priced: PricedLine) -> SaleLine:
    return replace(
        sold, price_money=priced.price_money, tax_way=priced.tax_way, exempt=priced.exempt,
        proof=priced.proof,
    )  # fmt: skip
