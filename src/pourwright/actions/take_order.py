"""Take an order, by hand or from a message that was confirmed, and change one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from pourwright.actions.keep_record import references_in
from pourwright.actions.kept_order import keep_order, open_order_at
from pourwright.actions.port import Bench, World
from pourwright.base.errors import BadInput, Conflict, NotFound
from pourwright.base.field import flag, number, parts, reference, text
from pourwright.base.record import Record
from pourwright.shop.allot import trimmed
from pourwright.shop.day import DAY
from pourwright.shop.order import Customer, Order, OrderLine, OrderState


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedLine(Record):
    """Packs of one bait in one look that somebody wants."""

    bait: str = reference("Bait", refers="bait")
    look: str = reference("Look", refers="look")
    packs: int = number("Packs", low=1, high=20_000)
    baits_each: int = number("Baits to a pack", low=1, high=200)
    price_money: float | None = number(
        "Price of a pack; left out, that of the price list", low=0, high=10_000, default=None,
        label="Price of a pack",
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderEntry(Record):
    """What a person enters of an order."""

    customer: str = reference("Customer", refers="customer", default="")
    new_customer: str = text("Or the name of a new customer", most=60, default="")
    lines: tuple[WantedLine, ...] = parts("What is wanted", least=1, most=60)
    taken_on: str = text("Taken on (year-month-day)", pattern=DAY, most=10)
    due_on: str = text(
        "Due on (year-month-day), if a day was promised", pattern=f"({DAY})?", most=10, default=""
    )
    channel: str = text("How it came: message, market, shop", most=40, default="")
    asked: bool = flag("Only asked about so far: nothing is promised")
    note: str = text("Note", most=500, default="")

    def check(self) -> None:
        """Refuse an order of nobody, and one of two people."""
        if bool(self.customer) == bool(self.new_customer.strip()):
            why = (
                "pick a customer or name a new one"
                if not self.customer
                else "pick or name, not both"
            )
            raise BadInput("customer", self.new_customer, why)


def take_order(world: World, entry: OrderEntry, *, message: str = "", key: str) -> str:
    """The id of the new order, kept under `key` with the message it came by.

    The same key a second time changes nothing. Raises: BadInput for a bait, a look or a customer
    that is not on the bench.
    """
    with world.bench() as bench:
        if _known(bench, key):
            return key
        _refuse_gone(bench, entry)
        order = Order(
            customer=_customer(world, bench, entry),
            taken_on=entry.taken_on,
            due_on=entry.due_on,
            channel=entry.channel,
            state=OrderState.ASKED if entry.asked else OrderState.TAKEN,
            lines=tuple(_line(it) for it in entry.lines),
            message=message,
            note=entry.note,
        )
        bench.records.save(Order.key, key, order, expected_version=0)
        bench.commit()
    return key


def change_order(world: World, id: str, entry: OrderEntry, *, expected_version: int) -> Order:
    """The order as it is wanted now; packs that were set aside stay so as far as they are wanted.

    Raises: NotFound; BadInput, also for less than was sent; Conflict for an order that is over or
    was changed meanwhile.
    """
    with world.bench() as bench:
        stored, order = open_order_at(bench, id)
        if stored.version != expected_version:
            raise Conflict("the order was changed since you opened it: look at it again")
        _refuse_gone(bench, entry)
        lines = _kept_aside(order.lines, entry.lines)
        kept = keep_order(
            bench,
            stored,
            replace(
                order,
                customer=_customer(world, bench, entry),
                taken_on=entry.taken_on,
                due_on=entry.due_on,
                channel=entry.channel,
                state=_state(order, lines, asked=entry.asked),
                lines=lines,
                note=entry.note,
            ),
        )
        bench.commit()
    return kept


def entry_of(order: Order) -> OrderEntry:
    """An order as a person entered it."""
    return OrderEntry(
        customer=order.customer,
        lines=tuple(
            WantedLine(
                bait=it.bait, look=it.look, packs=it.packs, baits_each=it.baits_each,
                price_money=it.price_money,
            )
            for it in order.lines
        ),
        taken_on=order.taken_on,
        due_on=order.due_on,
        channel=order.channel,
        asked=order.state is OrderState.ASKED,
        note=order.note,
    )  # fmt: skip


def _state(order: Order, lines: Sequence[OrderLine], *, asked: bool) -> OrderState:
    """A parcel that no longer fits its order is open again; with nothing left it is over."""
    if order.state is OrderState.PACKED and tuple(lines) == order.lines:
        return order.state
    if not any(line.left for line in lines):
        return OrderState.SENT
    if any(line.sent for line in lines):
        return OrderState.PART_SENT
    return OrderState.ASKED if asked else OrderState.TAKEN


def _kept_aside(before: Sequence[OrderLine], wanted: Sequence[WantedLine]) -> tuple[OrderLine, ...]:
    """The wanted lines, each with what was set aside for the same bait, look and size of pack."""
    left = list(before)
    found = []
    for i, it in enumerate(wanted):
        same = next((line for line in left if _alike(line, it)), None)
        if same is None:
            found.append(_line(it))
            continue
        left.remove(same)
        if it.packs < same.sent:
            why = f"{same.sent} packs have left already: take their sale back first"
            raise BadInput(f"lines[{i}].packs", it.packs, why)
        found.append(replace(
            _line(it), sent=same.sent, set_aside=trimmed(same.set_aside, it.packs - same.sent),
            picked=same.picked and same.packs == it.packs,
        ))  # fmt: skip
    _refuse_lost(left)
    return tuple(found)


def _refuse_lost(gone: Sequence[OrderLine]) -> None:
    """Refuse to leave out a line of which packs have left."""
    sent = sum(line.sent for line in gone)
    if sent:
        raise BadInput(
            "lines", sent,
            f"{sent} packs of a line that is left out or changed have left already: keep the line, "
            "or take their sale back first",
        )  # fmt: skip


def _alike(line: OrderLine, it: WantedLine) -> bool:
    return (line.bait, line.look, line.baits_each) == (it.bait, it.look, it.baits_each)


def _line(it: WantedLine) -> OrderLine:
    return OrderLine(
        bait=it.bait, look=it.look, packs=it.packs, baits_each=it.baits_each,
        price_money=it.price_money,
    )  # fmt: skip


def _customer(world: World, bench: Bench, entry: OrderEntry) -> str:
    """The customer's id; a new name becomes a new record, one that is known already does not."""
    name = entry.new_customer.strip()
    if not name:
        return entry.customer
    for stored in bench.records.all(Customer.key):
        if stored.noun.name.casefold() == name.casefold():
            return stored.id
    fresh = world.ids.fresh()
    bench.records.save(Customer.key, fresh, Customer(name=name), expected_version=0)
    return fresh


def _known(bench: Bench, id: str) -> bool:
    try:
        bench.records.get(Order.key, id)
    except NotFound:
        return False
    return True


def _refuse_gone(bench: Bench, entry: OrderEntry) -> None:
    for it in references_in(entry):
        try:
            bench.records.get(it.sort, it.id)
        except NotFound as error:
            why = "is not on the bench: pick one from the list"
            raise BadInput(it.path, it.id, why) from error
