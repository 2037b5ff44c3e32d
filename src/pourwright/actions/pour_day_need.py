"""What open orders still want poured: what lies finished and free counts first."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from pourwright.actions.bait_kind import BaitKind, BaitKinds
from pourwright.actions.finished_stock import free_stock
from pourwright.actions.port import Bench, Stored
from pourwright.actions.set_aside import filled_lines
from pourwright.shop.mold import Mold
from pourwright.shop.order import Customer, Order, OrderLine, OrderState

_NO_DAY = "9999-12-31"


@dataclass(frozen=True, slots=True)
class Need:
    """Baits of one look that orders want.

    `covered` baits are wanted too, and lie finished; `orders` are those that wait for the pour, or
    for what lies finished where nothing is to be poured, and `due_on` is the earliest of their
    days; `mold` is empty where `why_not` says why nothing on the bench pours them.
    """

    kind: BaitKind
    bait: str
    look: str
    baits: int
    covered: int
    due_on: str
    orders: tuple[str, ...]
    mold: str
    why_not: str


@dataclass(frozen=True, slots=True)
class _Wanted:
    """A line of an order, and the same with all that is free set aside for it."""

    order: Order
    line: OrderLine
    after: OrderLine


def pour_needs(bench: Bench) -> tuple[Need, ...]:
    """Every bait and look of which open orders lack something, the earliest due first.

    What lies finished goes to the orders due first; for one that is only asked about nothing has
    to be poured.
    """
    kinds, molds = BaitKinds(bench), _molds(bench)
    customers = {s.id: s.noun.name for s in bench.records.all(Customer.key, retired=True)}
    by_kind: dict[BaitKind, list[_Wanted]] = defaultdict(list)
    for it in _wanted(bench):
        by_kind[BaitKind(it.line.bait, it.line.look)].append(it)
    found = [_need(kinds, molds, customers, kind, its) for kind, its in by_kind.items()]
    return tuple(sorted(found, key=lambda n: (not n.baits, n.due_on or _NO_DAY, n.bait, n.look)))


def _wanted(bench: Bench) -> list[_Wanted]:
    orders = [s.noun for s in bench.records.all(Order.key) if isinstance(s.noun, Order)]
    orders = [o for o in orders if o.open and o.state is not OrderState.ASKED]
    orders = sorted(orders, key=lambda o: (o.due_on or _NO_DAY, o.taken_on))
    lines = [(order, line) for order in orders for line in order.lines if line.missing]
    filled = filled_lines([line for _, line in lines], free_stock(bench))
    return [_Wanted(order, line, after) for (order, line), after in zip(lines, filled, strict=True)]


def _molds(bench: Bench) -> Mapping[str, tuple[Stored, ...]]:
    """Molds by the bait they make, those off the bench among them, the most baits a shot first."""
    found: dict[str, list[Stored]] = defaultdict(list)
    for stored in bench.records.all(Mold.key, retired=True):
        if isinstance(stored.noun, Mold):
            found[stored.noun.bait].append(stored)
    return {bait: tuple(sorted(its, key=_baits_at_once)) for bait, its in found.items()}


def _baits_at_once(stored: Stored) -> tuple[bool, int]:
    mold = stored.noun
    return stored.retired, -(mold.cavities * mold.owned) if isinstance(mold, Mold) else 0


def _need(
    kinds: BaitKinds,
    molds: Mapping[str, tuple[Stored, ...]],
    customers: Mapping[str, str],
    kind: BaitKind,
    wanted: list[_Wanted],
) -> Need:
    bait = kinds.bait_name(kind)
    mold, why_not = _mold(bait, molds.get(kind.bait, ()))
    lacking = sum(it.after.missing * it.line.baits_each for it in wanted)
    waiting = [it for it in wanted if it.after.missing] or wanted
    return Need(
        kind=kind,
        bait=bait,
        look=kinds.look_name(kind),
        baits=lacking,
        covered=sum(it.line.missing * it.line.baits_each for it in wanted) - lacking,
        due_on=min((it.order.due_on for it in waiting if it.order.due_on), default=""),
        orders=tuple(dict.fromkeys(_called(customers, it) for it in waiting)),
        mold=mold,
        why_not=why_not,
    )


def _called(customers: Mapping[str, str], it: _Wanted) -> str:
    """An order by its name, or by who wants it."""
    return it.order.name or customers.get(it.order.customer, it.order.customer)


def _mold(bait: str, molds: tuple[Stored, ...]) -> tuple[str, str]:
    """The mold that gives most at once, or why there is none."""
    if not molds:
        return "", f"No mold on the bench makes {bait}: enter one, or tell the customer."
    first = molds[0]
    if first.retired:
        gone = f"{first.noun.name}, the mold that makes {bait}, was taken off the bench"
        return "", f"{gone}: put one on again, or tell the customer."
    return first.id, ""
