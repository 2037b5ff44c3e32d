"""Open orders: what is late, what is due, what is ready on the rack and what must be poured."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum

from pourwright.actions.bait_kind import BaitKind, BaitKinds
from pourwright.actions.finished_stock import free_stock
from pourwright.actions.kept_order import order_at
from pourwright.actions.port import Bench, Stored
from pourwright.actions.set_aside import filled_lines
from pourwright.shop.mold import Mold
from pourwright.shop.order import Customer, Order, OrderLine, OrderState

NO_MOLD = "no mold for it is on the bench any more"
GONE = "no longer on the bench"
# Later than any day.
_NEVER = "9999"


class Standing(StrEnum):
    """How far what an order wants is there."""

    TO_POUR = "must be poured"
    READY = "ready on the rack"
    ASIDE = "set aside"
    PICKED = "picked"
    PACKED = "packed"
    OVER = "over"


@dataclass(frozen=True, slots=True)
class LineView:
    """A line with what of it is there: `ready` is free on the rack, `short` must be poured."""

    line: OrderLine
    bait: str
    look: str
    ready: int
    mold: bool

    @property
    def short(self) -> int:
        """Packs that are neither set aside nor free."""
        return self.line.missing - self.ready

    @property
    def kind(self) -> BaitKind:
        """Bait and look, as ids."""
        return BaitKind(self.line.bait, self.line.look)


@dataclass(frozen=True, slots=True)
class OrderView:
    """An order with its customer and its lines; `late` where its day has gone by."""

    id: str
    order: Order
    customer: str
    lines: tuple[LineView, ...]
    late: bool

    @property
    def short(self) -> int:
        """Packs that must be poured."""
        return sum(line.short for line in self.lines)

    @property
    def ready(self) -> int:
        """Packs that are free on the rack."""
        return sum(line.ready for line in self.lines)

    @property
    def packs(self) -> int:
        """Packs that are still to be sent."""
        return self.order.left

    @property
    def there(self) -> int:
        """Packs that are free or set aside already."""
        return sum(line.ready + line.line.aside for line in self.lines)

    @property
    def standing(self) -> Standing:
        """How far it is."""
        if not self.order.open:
            return Standing.OVER
        if self.order.state is OrderState.PACKED:
            return Standing.PACKED
        if self.short:
            return Standing.TO_POUR
        if self.ready:
            return Standing.READY
        return Standing.PICKED if self.order.picked else Standing.ASIDE


@dataclass(frozen=True, slots=True)
class Wanted:
    """Baits that open orders lack, of one kind; `due_on` is the first day, empty for none."""

    kind: BaitKind
    bait: str
    look: str
    packs: int
    baits: int
    due_on: str
    mold: bool


@dataclass(frozen=True, slots=True)
class Orders:
    """The open orders, late ones first, then by the day they are due."""

    open: tuple[OrderView, ...]
    wanted: tuple[Wanted, ...]

    @property
    def late(self) -> int:
        """Orders whose day has gone by."""
        return sum(it.late for it in self.open)


def see_orders(bench: Bench, today: str) -> Orders:
    """The open orders on a day of the maker's calendar.

    Free stock is counted once, for the orders that are due first; those that are only asked about
    come last, and nothing has to be poured for them.
    """
    found = [(s.id, s.noun) for s in bench.records.all(Order.key) if _is_open(s)]
    orders = [(key, it) for key, it in found if isinstance(it, Order)]
    orders.sort(key=lambda it: (_only_asked(it[1]), it[1].due_on or _NEVER, it[1].taken_on, it[0]))
    lines = [line for _, order in orders for line in order.lines]
    ready = iter(filled_lines(lines, free_stock(bench)))
    known = Known(bench)
    open_ = tuple(
        known.view(key, order, [next(ready) for _ in order.lines], today) for key, order in orders
    )
    return Orders(open_, _wanted(open_))


def see_order(bench: Bench, id: str, today: str) -> OrderView:
    """One order, in its turn among the others. Raises: NotFound."""
    _, order = order_at(bench, id)
    if order.open:
        for view in see_orders(bench, today).open:
            if view.id == id:
                return view
    return Known(bench).view(id, order, order.lines, today)


def _only_asked(order: Order) -> bool:
    return order.state is OrderState.ASKED


def _is_open(stored: Stored) -> bool:
    return isinstance(stored.noun, Order) and stored.noun.open


class Known:
    """Names and molds, each read once in a unit of work."""

    def __init__(self, bench: Bench) -> None:
        self._kinds = BaitKinds(bench)
        customers = bench.records.all(Customer.key, retired=True)
        self._customers: Mapping[str, str] = {s.id: s.noun.name for s in customers}
        molds = (s.noun for s in bench.records.all(Mold.key))
        self._molded = {it.bait for it in molds if isinstance(it, Mold)}

    def view(self, id: str, order: Order, filled: Iterable[OrderLine], today: str) -> OrderView:
        """An order; `filled` are its lines with all that is free set aside."""
        lines = tuple(
            self._line(line, line.missing - more.missing)
            for line, more in zip(order.lines, filled, strict=True)
        )
        late = order.open and bool(order.due_on) and order.due_on < today
        return OrderView(id, order, self._customers.get(order.customer, GONE), lines, late)

    def _line(self, line: OrderLine, ready: int) -> LineView:
        kind = BaitKind(line.bait, line.look)
        return LineView(
            line,
            self._kinds.bait_name(kind),
            self._kinds.look_name(kind),
            ready,
            line.bait in self._molded,
        )


def _wanted(orders: Iterable[OrderView]) -> tuple[Wanted, ...]:
    """What must be poured, by kind, what is due first on top."""
    found: dict[BaitKind, Wanted] = {}
    for order in orders:
        for line in () if _only_asked(order.order) else order.lines:
            if line.short:
                before = found.get(line.kind)
                found[line.kind] = _with(before, line, order.order.due_on)
    return tuple(sorted(found.values(), key=lambda it: it.due_on or _NEVER))


def _with(before: Wanted | None, line: LineView, due_on: str) -> Wanted:
    baits = line.short * line.line.baits_each
    if before is None:
        return Wanted(line.kind, line.bait, line.look, line.short, baits, due_on, line.mold)
    first = min(before.due_on or _NEVER, due_on or _NEVER)
    return Wanted(
        line.kind, line.bait, line.look, before.packs + line.short, before.baits + baits,
        "" if first == _NEVER else first, line.mold,
    )  # fmt: skip
