"""Open orders, and one order: set aside, pick, pack, call off."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from starlette.responses import Response

from pourwright.actions.pack_order import (
    call_off,
    confirm_order,
    pack_order,
    pick_line,
    take_up_again,
)
from pourwright.actions.packing_list import packing_list
from pourwright.actions.plan_batch import workplace
from pourwright.actions.port import Bench, World
from pourwright.actions.pour_day_ready import ready_by
from pourwright.actions.reply_message import confirming_text
from pourwright.actions.sales_of import KeptSale, sales_of
from pourwright.actions.see_orders import OrderView, see_order, see_orders
from pourwright.actions.send_order import asked_in_all, price_asked
from pourwright.actions.set_aside import give_back, set_aside
from pourwright.base.errors import BadInput, NotFound, PourwrightError
from pourwright.shop.money import Money
from pourwright.shop.order import Customer, Order
from pourwright.web.message_view import Marked, marked
from pourwright.web.order_view import (
    OrderCard,
    WantedCard,
    due_words,
    order_card,
    wanted_cards,
)
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.thumb import KindThumbs
from pourwright.web.today_here import day_here

MOST_SALES = 8


@dataclass(frozen=True, slots=True)
class SaleRow:
    """A sale of late; `undone` where it was taken back."""

    id: str
    day: str
    customer: str
    packs: int
    received: Money
    undone: bool


@dataclass(frozen=True, slots=True)
class Person:
    """A customer on the list."""

    id: str
    name: str
    saved: bool


@dataclass(frozen=True, slots=True)
class OrdersContext:
    """The open orders; `saved` names a record that was just kept."""

    title: str
    late: int
    orders: tuple[OrderCard, ...]
    wanted: tuple[WantedCard, ...]
    sales: tuple[SaleRow, ...]
    customers: tuple[Person, ...]
    saved: str


@dataclass(frozen=True, slots=True)
class OrderContext:
    """One order."""

    title: str
    id: str
    card: OrderCard
    order: Order
    due: str
    open: bool
    ready: int
    short: int
    total: Money | None
    reply: str
    said: Marked | None
    aside: int
    sales: tuple[SaleRow, ...]
    refused: str = ""


def orders(visit: Visit) -> Show:
    """What is ordered, late ones first."""
    today = day_here(visit.world.clock.now())
    saved = visit.request.query_params.get("saved", "")
    with visit.world.reading() as bench:
        seen, pictures = see_orders(bench, today), KindThumbs(bench)
        people = bench.records.all(Customer.key)
        context = OrdersContext(
            title="Orders",
            late=seen.late,
            orders=tuple(order_card(bench, it, pictures, today) for it in seen.open),
            wanted=wanted_cards(seen.wanted, pictures.of, today),
            sales=_sales(bench),
            customers=tuple(Person(s.id, s.noun.name, s.id == saved) for s in people),
            saved=_saved(bench, saved),
        )
    return Show("orders/orders.html", context)


def order(visit: Visit) -> Show:
    """One order."""
    return _order(visit)


def _order(visit: Visit, *, refused: str = "", status: int = 200) -> Show:
    today = day_here(visit.world.clock.now())
    with visit.world.reading() as bench:
        view = see_order(bench, visit.part("id"), today)
        currency = workplace(bench).currency
        card = order_card(bench, view, KindThumbs(bench), today)
        context = OrderContext(
            title=view.customer,
            id=view.id,
            card=card,
            order=view.order,
            due=due_words(view.order.due_on, today),
            open=view.order.open,
            ready=view.ready,
            short=view.short,
            total=asked_in_all(bench, view.order),
            reply=_reply(bench, view, currency, today),
            said=marked(bench, view.order) if view.order.message else None,
            aside=sum(line.aside for line in view.order.lines),
            sales=_sales_of(bench, view),
            refused=refused,
        )
    return Show("orders/order.html", context, status)


def do(visit: Visit) -> Show | Go:
    """One deed on an order; what cannot be done is said on its page."""
    key, deed = visit.part("id"), dict(visit.sent).get("deed", "")
    word, _, place = deed.partition(":")
    if word not in DEEDS or (place and not place.isdigit()):
        raise BadInput("deed", deed, f"must be one of {', '.join(DEEDS)}")
    try:
        DEEDS[word](visit.world, key, int(place or 0))
    except NotFound:
        raise
    except PourwrightError as error:
        return _order(visit, refused=str(error), status=error.http_status)
    return Go(f"/orders/{key}")


Deed = Callable[[World, str, int], object]
DEEDS: Mapping[str, Deed] = {
    "confirm": lambda world, key, _: confirm_order(world, key),
    "aside": lambda world, key, _: set_aside(world, key),
    "back": lambda world, key, line: give_back(world, key, line=line),
    "pick": lambda world, key, line: pick_line(world, key, line, picked=True),
    "unpick": lambda world, key, line: pick_line(world, key, line, picked=False),
    "pack": lambda world, key, _: pack_order(world, key),
    "off": lambda world, key, _: call_off(world, key),
    "again": lambda world, key, _: take_up_again(world, key),
}


def packing(visit: Visit) -> Response:
    """The packing list as a PDF."""
    today = day_here(visit.world.clock.now())
    with visit.world.reading() as bench:
        place = workplace(bench)
        found = packing_list(bench, visit.part("id"), today=today)
    pdf = visit.world.printer.packing_list(found, paper=place.paper)
    headers = {
        "content-disposition": f'attachment; filename="packing-list-{visit.part("id")[:12]}.pdf"'
    }
    return Response(pdf, media_type="application/pdf", headers=headers)


def _reply(bench: Bench, view: OrderView, currency: str, today: str) -> str:
    if not view.order.open:
        return ""
    return confirming_text(
        view, lambda it: price_asked(bench, it.line), currency=currency,
        ready_by=ready_by(bench, view, today),
    )  # fmt: skip


def _sales_of(bench: Bench, view: OrderView) -> tuple[SaleRow, ...]:
    """The sales by which an order left, also those taken back."""
    return tuple(_sale_row(it, view.customer) for it in sales_of(bench) if it.sale.order == view.id)


def _sales(bench: Bench) -> tuple[SaleRow, ...]:
    names = {s.id: s.noun.name for s in bench.records.all(Customer.key, retired=True)}
    return tuple(
        _sale_row(it, names.get(it.sale.customer, "no customer named"))
        for it in reversed(sales_of(bench)[-MOST_SALES:])
    )


def _sale_row(it: KeptSale, customer: str) -> SaleRow:
    packs = sum(line.packs for line in it.sale.lines)
    return SaleRow(it.id, it.sale.sold_on, customer, packs, it.sale.received, not it.stands)


def _saved(bench: Bench, id: str) -> str:
    """The name of an order's or a price's record that was just saved from its form."""
    for sort in ("order", "offer", "customer") if id else ():
        try:
            return bench.records.get(sort, id).noun.name or "the order"
        except NotFound:
            continue
    return ""


ORDERS = Page(
    "/orders",
    orders,
    label="Orders & money",
    short="Orders",
    icon="orders",
    covers=("/sales", "/prices", "/money", "/records/order", "/records/customer"),
)
ORDERS_PAGES = (
    Page("/orders/{id}", order),
    Page("/orders/{id}/do", do, ("POST",)),
    Page("/orders/{id}/packing-list.pdf", packing),
)
