"""Send an order, look at a sale, take it back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pourwright.actions.plan_batch import workplace
from pourwright.actions.port import Bench
from pourwright.actions.reply_message import sent_text
from pourwright.actions.sales_of import KeptSale, sale_of
from pourwright.actions.see_orders import see_order
from pourwright.actions.send_order import SendEntry, price_asked, send_order
from pourwright.actions.stock_flows import cost_of_causes
from pourwright.actions.take_back_sale import take_back_sale
from pourwright.actions.tax_standing import tax_standing
from pourwright.base.errors import BadInput, NotFound, PourwrightError
from pourwright.shop.money import Money
from pourwright.shop.order import Customer
from pourwright.shop.sale import Exempt, TaxWay
from pourwright.web.event_id import event_id
from pourwright.web.form import Typed, parsed, texts_of
from pourwright.web.local_time import day_of
from pourwright.web.order_view import OrderCard, order_card
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.sold_lines import SoldLine, sold_lines
from pourwright.web.tax_ask import TaxAsk, take_country, tax_ask
from pourwright.web.thumb import KindThumbs
from pourwright.web.today_here import day_here
from pourwright.web.widget import FormView, form_view


@dataclass(frozen=True, slots=True)
class SendContext:
    """An order about to leave."""

    title: str
    id: str
    card: OrderCard
    form: FormView
    event: str
    tax: TaxAsk
    refused: str


@dataclass(frozen=True, slots=True)
class SaleContext:
    """A sale."""

    title: str
    kept: KeptSale
    customer: str
    order: str
    lines: tuple[SoldLine, ...]
    goods_cost: Money
    left: Money
    back_id: str
    undone_on: str
    country: str
    reply: str
    refused: str = ""
    why: str = ""


def send(visit: Visit) -> Show | Go:
    """The sale by which an order leaves."""
    sent = dict(visit.sent)
    command, event = sent.pop("@do", ""), sent.pop("@event", "")
    if not visit.posted:
        return _send_page(visit, _suggested(visit), event=visit.world.ids.fresh())
    if take_country(visit.world, command):
        return _send_page(visit, sent, event=event)
    found = parsed(SendEntry, sent, visit.settings)
    if found.problems:
        return _send_page(visit, sent, event=event, problems=found.problems, status=422)
    try:
        sale = send_order(visit.world, visit.part("id"), found.record, key=event_id(event))
    except BadInput as error:
        wrong = {error.field: error.why}
        return _send_page(visit, sent, event=event, problems=wrong, status=422)
    except PourwrightError as error:
        refused, status = str(error), error.http_status
        return _send_page(visit, sent, event=event, refused=refused, status=status)
    return Go(f"/sales/{sale.id}")


def _suggested(visit: Visit) -> dict[str, str]:
    """The form as far as the order and the price list fill it."""
    today = day_here(visit.world.clock.now())
    typed = texts_of(SendEntry, None, visit.settings.system) | {"sold_on": today}
    with visit.world.reading() as bench:
        view = see_order(bench, visit.part("id"), today)
        profile = tax_standing(bench)
        way = profile.tax_way if profile else TaxWay.INSIDE
        typed |= {"lines#": str(len(view.lines)), "channel": view.order.channel}
        for i, line in enumerate(view.lines):
            price = price_asked(bench, line.line)
            typed |= {
                f"lines[{i}].packs": str(line.line.aside),
                f"lines[{i}].price_money": str(price) if price is not None else "",
                f"lines[{i}].tax_way": way.value, f"lines[{i}].exempt": Exempt.NO.value,
                f"lines[{i}].proof": "",
            }  # fmt: skip
    return typed


def _send_page(
    visit: Visit, typed: Typed, *, event: str, problems: Mapping[str, str] | None = None,
    refused: str = "", status: int = 200,
) -> Show:  # fmt: skip
    today = day_here(visit.world.clock.now())
    with visit.world.reading() as bench:
        view = see_order(bench, visit.part("id"), today)
        card = order_card(bench, view, KindThumbs(bench), today)
        tax = tax_ask(bench)
    form = form_view(
        SendEntry, typed, problems=problems or {}, settings=visit.settings,
        references=lambda _: (),
    )  # fmt: skip
    context = SendContext(
        title=f"Send it to {card.customer}",
        id=view.id,
        card=card,
        form=form,
        event=event,
        tax=tax,
        refused=refused,
    )
    return Show("orders/send.html", context, status)


def sale(visit: Visit) -> Show:
    """One sale."""
    return _sale_page(visit)


def take_back(visit: Visit) -> Show | Go:
    """Undo a sale, with a reason."""
    sent, key = dict(visit.sent), visit.part("id")
    why = sent.get("why", "")
    try:
        take_back_sale(visit.world, key, why=why, key=event_id(sent.get("event", "")))
    except NotFound:
        raise
    except PourwrightError as error:
        return _sale_page(visit, refused=str(error), why=why, status=error.http_status)
    return Go(f"/sales/{key}")


def _sale_page(visit: Visit, *, refused: str = "", why: str = "", status: int = 200) -> Show:
    with visit.world.reading() as bench:
        kept = sale_of(bench, visit.part("id"))
        cost = _cost(bench, kept.id)
        profile = tax_standing(bench)
        context = SaleContext(
            title="A sale taken back" if kept.taken_back else "Sold",
            kept=kept,
            customer=_customer(bench, kept),
            order=kept.sale.order,
            lines=sold_lines(bench, kept.sale),
            goods_cost=cost,
            left=kept.left_after(cost),
            back_id=visit.world.ids.fresh(),
            undone_on=day_of(kept.taken_back) if kept.taken_back else "",
            country=profile.country.value if profile else "",
            reply=_reply(bench, kept, day_here(visit.world.clock.now())),
            refused=refused,
            why=why or kept.why,
        )
    return Show("orders/sale.html", context, status)


def _cost(bench: Bench, id: str) -> Money:
    """What the goods had cost when they left."""
    cause = f"sale/{id}"
    return Money(cost_of_causes(bench.stock.moves(cause=cause))[cause])


def _customer(bench: Bench, kept: KeptSale) -> str:
    try:
        return bench.records.get(Customer.key, kept.sale.customer).noun.name
    except NotFound:
        return "no customer named"


def _reply(bench: Bench, kept: KeptSale, today: str) -> str:
    if kept.taken_back or not kept.sale.order:
        return ""
    try:
        view = see_order(bench, kept.sale.order, today)
    except NotFound:
        return ""
    return sent_text(view, kept.sale, currency=workplace(bench).currency)


SALE_PAGES = (
    Page("/orders/{id}/send", send, ("GET", "POST")),
    Page("/sales/{id}", sale),
    Page("/sales/{id}/take-back", take_back, ("POST",)),
)
