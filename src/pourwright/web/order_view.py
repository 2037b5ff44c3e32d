"""Orders in words and pictures."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from pourwright.actions.bait_kind import BaitKind
from pourwright.actions.port import Bench
from pourwright.actions.see_orders import NO_MOLD, LineView, OrderView, Standing, Wanted
from pourwright.actions.send_order import price_asked
from pourwright.shop.money import Money
from pourwright.shop.order import OrderState
from pourwright.web.local_time import dated
from pourwright.web.thumb import KindThumbs, Thumb

_WEEK = 7
_WORDS: Mapping[Standing, str] = {
    Standing.TO_POUR: "must be poured",
    Standing.READY: "ready on the rack",
    Standing.ASIDE: "set aside, to be picked",
    Standing.PICKED: "picked, to be packed",
    Standing.PACKED: "packed, to be sent",
    Standing.OVER: "",
}


@dataclass(frozen=True, slots=True)
class LineCard:
    """A line of an order; `price` is none where nobody said one, `left` was not sent yet."""

    place: int
    bait: str
    look: str
    packs: int
    each: int
    sent: int
    left: int
    aside: int
    ready: int
    short: int
    from_lots: tuple[str, ...]
    picked: bool
    trouble: str
    price: Money | None
    thumb: Thumb | None


@dataclass(frozen=True, slots=True)
class OrderCard:
    """An order on the list."""

    id: str
    customer: str
    name: str
    due: str
    late: bool
    state: str
    standing: str
    lines: tuple[LineCard, ...]

    @property
    def waiting(self) -> tuple[LineCard, ...]:
        """The lines of which something is still to be sent."""
        return tuple(line for line in self.lines if line.left)


@dataclass(frozen=True, slots=True)
class WantedCard:
    """Baits that must be poured for open orders."""

    bait: str
    look: str
    packs: int
    baits: int
    due: str
    trouble: str
    thumb: Thumb | None


def order_card(bench: Bench, view: OrderView, pictures: KindThumbs, today: str) -> OrderCard:
    """An order as it stands on a day."""
    return OrderCard(
        id=view.id,
        customer=view.customer,
        name=view.order.name,
        due=due_words(view.order.due_on, today),
        late=view.late,
        state=view.order.state.value,
        standing=_standing(view),
        lines=tuple(line_card(bench, line, i, pictures) for i, line in enumerate(view.lines)),
    )


def line_card(bench: Bench, view: LineView, place: int, pictures: KindThumbs) -> LineCard:
    """A line as it stands."""
    line = view.line
    return LineCard(
        place=place,
        bait=view.bait,
        look=view.look,
        packs=line.packs,
        each=line.baits_each,
        sent=line.sent,
        left=line.left,
        aside=line.aside,
        ready=view.ready,
        short=view.short,
        from_lots=tuple(f"{it.packs} from {it.lot}" for it in line.set_aside),
        picked=line.picked,
        trouble="" if view.mold or not view.short else NO_MOLD,
        price=price_asked(bench, line),
        thumb=pictures.of(view.kind),
    )


def wanted_cards(
    wanted: Sequence[Wanted], pictures: Callable[[BaitKind], Thumb | None], today: str
) -> tuple[WantedCard, ...]:
    """What must be poured."""
    return tuple(
        WantedCard(
            it.bait, it.look, it.packs, it.baits, due_words(it.due_on, today),
            "" if it.mold else NO_MOLD, pictures(it.kind),
        )
        for it in wanted
    )  # fmt: skip


def due_words(due_on: str, today: str) -> str:
    """When something is due, and how far off that is.

    >>> due_words("2026-06-05", "2026-06-03"), due_words("2026-06-01", "2026-06-03")
    ('due Fri, Jun 5, 2026, in 2 days', 'due Mon, Jun 1, 2026, 2 days late')
    """
    if not due_on:
        return ""
    day, here = dt.date.fromisoformat(due_on), dt.date.fromisoformat(today)
    off = (day - here).days
    return f"due {dated(due_on)}, {_off(off)}"


def _off(days: int) -> str:
    if days in {0, 1, -1}:
        return {0: "today", 1: "tomorrow", -1: "1 day late"}[days]
    return f"{-days} days late" if days < 0 else f"in {days} days"


def _standing(view: OrderView) -> str:
    if not view.order.open:
        return view.order.state.value
    if view.order.state is OrderState.ASKED:
        return f"only asked about; {_there(view)}"
    if view.order.sent:
        some = f"part sent, {view.order.left} of {view.order.sent + view.order.left} packs left"
        return f"{some}; {_there(view)}"
    return _there(view)


def _there(view: OrderView) -> str:
    """How far what it wants is there."""
    if view.short:
        some = f"{view.short} pack{'' if view.short == 1 else 's'} must be poured"
        return f"{some}, {view.there} ready" if view.there else some
    return _WORDS[view.standing]
