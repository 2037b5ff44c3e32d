"""A text to send to a customer: nothing in it is promised that is not known."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Callable, Iterator, Sequence

from pourwright.actions.order_parcel import Sort, sort_of
from pourwright.actions.see_orders import LineView, OrderView
from pourwright.shop.money import Money
from pourwright.shop.sale import Sale

Priced = Callable[[LineView], Money | None]
_NO_PRICE = "price to follow"


def confirming_text(view: OrderView, prices: Priced, *, currency: str, ready_by: str = "") -> str:
    """What was ordered or is left of it, at which price, and when it is ready.

    `ready_by` is the day of a pour that is planned for it; without one no day is promised.
    """
    left = [line for line in view.lines if line.line.left]
    asked = [prices(line) for line in left]
    lines = [
        _line(it, it.line.left, price, currency) for it, price in zip(left, asked, strict=True)
    ]
    total = _total(left, asked, currency)
    head = "this is still to come of your order:" if view.order.sent else "here is what I noted:"
    return "\n".join([f"Hi {view.customer},", head, *lines, *total,
                      *_when(view, ready_by), "Does that fit?"])  # fmt: skip


def sent_text(view: OrderView, sale: Sale, *, currency: str) -> str:
    """What is on its way, and what it came to."""
    sent = _in_sale(view, sale)
    lines = [_line(it, packs, Money.of(price), currency) for it, packs, price in sent]
    what = "a part of your order" if view.order.open else "your order"
    rest = f"{view.order.left} more {_packs(view.order.left)} will follow."
    delivery = _money(currency, Money.of(sale.delivery_money))
    inside = ", inside the prices" if sale.delivery_inside else ""
    paid = [f"Delivery{inside}: {delivery}"] if sale.delivery_money else []
    return "\n".join([
        f"Hi {view.customer},", f"{what} left on {_day(sale.sold_on)}:", *lines, *paid,
        f"In all: {_money(currency, sale.received)}", *([rest] if view.order.open else []),
        "Thank you!",
    ])  # fmt: skip


def _in_sale(view: OrderView, sale: Sale) -> Iterator[tuple[LineView, int, float]]:
    """The lines of an order that are in a sale, with the packs and the price of one."""
    known = {sort_of(it.line): it for it in view.lines}
    packs: Counter[tuple[Sort, float]] = Counter()
    for line in sale.lines:
        packs[sort_of(line), line.price_money] += line.packs
    for (sort, price), n in packs.items():
        if sort in known:
            yield known[sort], n, price


def _packs(n: int) -> str:
    return "pack" if n == 1 else "packs"


def _line(it: LineView, packs: int, price: Money | None, currency: str) -> str:
    many = _packs(packs)
    each = f" of {it.line.baits_each}" if it.line.baits_each > 1 else ""
    asked = _NO_PRICE if price is None else f"{_money(currency, price)} a pack"
    return f"- {packs} {many}{each}: {it.bait}, {it.look}, {asked}"


def _total(lines: Sequence[LineView], prices: Sequence[Money | None], currency: str) -> list[str]:
    if any(price is None for price in prices):
        return []
    total = sum(
        (price * it.line.left for it, price in zip(lines, prices, strict=True) if price), Money(0)
    )
    return [f"In all: {_money(currency, total)}, delivery not included"]


def _when(view: OrderView, ready_by: str) -> Iterator[str]:
    """Ready now, ready by a day that is known, or no day at all."""
    if not view.short:
        yield "All of it is ready."
    elif ready_by:
        yield f"It is ready by {_day(ready_by)}."
    else:
        yield "Some of it has to be poured first: I will tell you the day as soon as I know it."
    if view.late:
        yield f"You asked for {_day(view.order.due_on)}, and I am late: I am sorry."
    elif view.order.due_on and (not view.short or (ready_by and ready_by <= view.order.due_on)):
        yield f"You asked for {_day(view.order.due_on)}."
    elif view.order.due_on:
        yield f"You asked for {_day(view.order.due_on)}; I have noted that."


def _day(day: str) -> str:
    found = dt.date.fromisoformat(day)
    return f"{found:%A}, {found:%B} {found.day}"


def _money(currency: str, amount: Money) -> str:
    return f"{currency}{amount}"
