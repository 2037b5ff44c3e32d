"""What a parcel does to its order when it leaves, and when it comes back."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import replace

from pourwright.shop.allot import beyond, joined, trimmed
from pourwright.shop.order import Order, OrderLine, OrderState, SetAside
from pourwright.shop.sale import Sale, SaleLine

Sort = tuple[str, str, int]
"""Bait, look and baits to a pack: by these a sale's lines belong to an order's."""


def sort_of(line: OrderLine | SaleLine) -> Sort:
    """What the packs of a line are."""
    return line.bait, line.look, line.baits_each


def beyond_order(order: Order, sale: Sale) -> Mapping[Sort, int]:
    """Packs of a sale that the order does not want, or not any more."""
    found: Counter[Sort] = Counter()
    for sold in sale.lines:
        found[sort_of(sold)] += sold.packs
    for line in order.lines:
        found[sort_of(line)] -= line.left
    return {sort: packs for sort, packs in found.items() if packs > 0}


def after_sending(order: Order, sale: Sale) -> Order:
    """The order without what a sale sends of it; what else was set aside stays so.

    While packs of a line are left, the price that the first of them were sold for holds.
    """
    sold = _lots(sale.lines)
    lines = [_without_own(line, sold[sort_of(line)]) for line in order.lines]
    rest = Counter({sort: lots.total() for sort, lots in sold.items()})
    lines = [_without_more(line, rest) for line in lines]
    prices = {sort_of(line): line.price_money for line in sale.lines}
    kept = tuple(
        _at(line, prices[sort_of(line)]) if line.sent > before.sent else line
        for line, before in zip(lines, order.lines, strict=True)
    )
    after = replace(order, lines=kept)
    return replace(after, state=after.unpacked if after.left else OrderState.SENT)


def after_return(order: Order, sale: Sale) -> Order:
    """The order with the packs of a sale that was taken back, packed again as they were."""
    if not order.sent:
        packed = order.state is OrderState.SENT
        return replace(order, state=OrderState.PACKED) if packed else order
    over = order.state is OrderState.CALLED_OFF
    back: dict[Sort, tuple[SetAside, ...]] = defaultdict(tuple)
    for sold in reversed(sale.lines):
        back[sort_of(sold)] += (SetAside(lot=sold.lot, packs=sold.packs),)
    lines = []
    for line in reversed(order.lines):
        some = back[sort_of(line)]
        back[sort_of(line)] = beyond(some, line.sent)
        lines.append(_returned(line, trimmed(some, line.sent)[::-1], aside=not over))
    after = replace(order, lines=tuple(reversed(lines)))
    if over:
        return after
    return replace(after, state=OrderState.PACKED if after.picked else after.unpacked)


def _lots(sold: Iterable[SaleLine]) -> dict[Sort, Counter[str]]:
    found: dict[Sort, Counter[str]] = defaultdict(Counter)
    for line in sold:
        found[sort_of(line)][line.lot] += line.packs
    return found


def _without_own(line: OrderLine, lots: Counter[str]) -> OrderLine:
    """The line without what is sold of its own set aside packs; `lots` keeps the others."""
    taken = {it.lot: min(it.packs, lots[it.lot]) for it in line.set_aside}
    lots.subtract(taken)
    left = ((it.lot, it.packs - taken[it.lot]) for it in line.set_aside)
    aside = tuple(SetAside(lot=lot, packs=packs) for lot, packs in left if packs)
    return _sent(line, sum(taken.values()), aside)


def _without_more(line: OrderLine, rest: Counter[Sort]) -> OrderLine:
    """The line without what is sold of it out of other lots."""
    more = min(rest[sort_of(line)], line.left)
    rest[sort_of(line)] -= more
    return _sent(line, more, trimmed(line.set_aside, line.left - more))


def _sent(line: OrderLine, packs: int, aside: tuple[SetAside, ...]) -> OrderLine:
    if not packs:
        return line
    return replace(line, sent=line.sent + packs, set_aside=aside, picked=False)


def _at(line: OrderLine, price_money: float) -> OrderLine:
    fixed = line.price_money is not None or not line.left
    return line if fixed else replace(line, price_money=price_money)


def _returned(line: OrderLine, back: tuple[SetAside, ...], *, aside: bool) -> OrderLine:
    packs = sum(it.packs for it in back)
    if not packs:
        return line
    sent = line.sent - packs
    kept = trimmed(joined(line.set_aside, back), line.packs - sent) if aside else ()
    there = sum(it.packs for it in kept)
    return replace(line, sent=sent, set_aside=kept, picked=aside and there == line.packs - sent)
