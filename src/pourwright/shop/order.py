"""Customers and what they ordered."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from pourwright.base.errors import BadInput
from pourwright.base.field import flag, number, parts, pick, reference, text
from pourwright.base.record import Record
from pourwright.shop.day import DAY, refuse_no_day
from pourwright.shop.noun import Noun


@dataclass(frozen=True, slots=True, kw_only=True)
class Customer(Noun):
    """Somebody who orders; keep no more about them than you need."""

    key: ClassVar[str] = "customer"
    label: ClassVar[str] = "Customer"
    plural: ClassVar[str] = "Customers"
    place: ClassVar[str] = "orders"

    reach: str = text("Where you reach them", most=120, default="")
    ship_to: str = text("Where their parcels go", most=300, default="")
    note: str = text("Note", most=500, default="")


class OrderState(StrEnum):
    """How far an order is."""

    ASKED = "asked"
    TAKEN = "taken"
    PACKED = "packed"
    PART_SENT = "part sent"
    SENT = "sent"
    CALLED_OFF = "called off"


OPEN_STATES = (OrderState.ASKED, OrderState.TAKEN, OrderState.PACKED, OrderState.PART_SENT)


@dataclass(frozen=True, slots=True, kw_only=True)
class SetAside(Record):
    """Packs taken out of a lot for a line, not sent yet."""

    lot: str = text("Lot", most=24)
    packs: int = number("Packs", low=1, high=20_000)


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderLine(Record):
    """Packs of one bait in one look."""

    bait: str = reference("Bait", refers="bait")
    look: str = reference("Look", refers="look")
    packs: int = number("Packs", low=1, high=20_000)
    baits_each: int = number("Baits to a pack", low=1, high=200, default=1)
    price_money: float | None = number(
        "Price of a pack; left out, that of the price list", low=0, high=10_000, default=None
    )
    set_aside: tuple[SetAside, ...] = parts("Set aside", most=40)
    picked: bool = flag("Picked into the parcel")
    sent: int = number("Packs sent already", low=0, high=20_000, default=0)

    def check(self) -> None:
        """Refuse more sent or set aside than was ordered, and a parcel with less in it."""
        if self.sent > self.packs:
            raise BadInput("sent", self.sent, f"{self.packs} packs are ordered")
        if self.aside > self.left:
            why = f"{_ordered(self)}: give some back first"
            raise BadInput("set_aside", self.aside, why)
        if self.picked and self.aside < self.left:
            why = f"{_ordered(self)}, {self.aside} of them are set aside"
            raise BadInput("picked", self.packs, why)

    @property
    def aside(self) -> int:
        """Packs that are set aside."""
        return sum(it.packs for it in self.set_aside)

    @property
    def left(self) -> int:
        """Packs that were not sent yet."""
        return self.packs - self.sent

    @property
    def missing(self) -> int:
        """Packs that are neither sent nor set aside."""
        return self.left - self.aside

    @property
    def baits(self) -> int:
        """Baits in all its packs."""
        return self.packs * self.baits_each


def _ordered(line: OrderLine) -> str:
    if not line.sent:
        return f"{line.packs} packs are ordered"
    return f"{line.left} of {line.packs} packs are still to be sent"


@dataclass(frozen=True, slots=True, kw_only=True)
class Order(Noun):
    """What a customer wants, and by when."""

    key: ClassVar[str] = "order"
    label: ClassVar[str] = "Order"
    plural: ClassVar[str] = "Orders"
    place: ClassVar[str] = "orders"

    name: str = text("What you call it", most=60, default="")
    customer: str = reference("Customer", refers="customer")
    taken_on: str = text("Taken on", pattern=DAY, most=10)
    due_on: str = text("Due on, if a day was promised", pattern=f"({DAY})?", most=10, default="")
    channel: str = text("How it came: message, market, shop", most=40, default="")
    state: OrderState = pick("How far it is", default=OrderState.TAKEN)
    lines: tuple[OrderLine, ...] = parts("What was ordered", most=60)
    message: str = text("The message it came by", most=4000, default="")
    note: str = text("Note", most=500, default="")

    def check(self) -> None:
        """Refuse days that do not exist."""
        for name in ("taken_on", "due_on"):
            refuse_no_day(name, getattr(self, name))

    @property
    def open(self) -> bool:
        """Whether something is still to be done for it."""
        return self.state in OPEN_STATES

    @property
    def missing(self) -> int:
        """Packs of all lines that are neither sent nor set aside."""
        return sum(line.missing for line in self.lines)

    @property
    def picked(self) -> bool:
        """Whether all that is left of every line lies in the parcel."""
        return all(line.picked or not line.left for line in self.lines)

    @property
    def sent(self) -> int:
        """Packs of all lines that were sent already."""
        return sum(line.sent for line in self.lines)

    @property
    def left(self) -> int:
        """Packs of all lines that were not."""
        return sum(line.left for line in self.lines)

    @property
    def unpacked(self) -> OrderState:
        """How far it is while its parcel is open."""
        return OrderState.PART_SENT if self.sent else OrderState.TAKEN
