"""What is ordered, for Today: the late ones, what is due next, and what must be poured for it."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.see_orders import Orders, OrderView, Wanted

MOST_ORDERS, MOST_WANTED = 5, 4


@dataclass(frozen=True, slots=True)
class Ordered:
    """The orders that press most, and how many more there are; baits that must be poured first."""

    shown: tuple[OrderView, ...]
    more: int
    late: int
    wanted: tuple[Wanted, ...]
    more_wanted: int


def ordered_view(orders: Orders) -> Ordered:
    """Those that come first, as the orders stand."""
    return Ordered(
        orders.open[:MOST_ORDERS],
        len(orders.open[MOST_ORDERS:]),
        orders.late,
        orders.wanted[:MOST_WANTED],
        len(orders.wanted[MOST_WANTED:]),
    )
