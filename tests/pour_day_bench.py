"""A pour day of the demo bench, and orders for it."""

from __future__ import annotations

from typing import Any

from pourwright.actions.port import World
from pourwright.shop.noun import Noun
from pourwright.shop.order import Customer, Order, OrderLine, OrderState
from pourwright.shop.pour_day import PourBatch, PourDay

WORMS = PourBatch(mold="demo-mold-worm", look="demo-look-marsh", count=24)
SHADS = PourBatch(mold="demo-mold-paddle", look="demo-look-shad", count=6)
DARK_SHADS = PourBatch(mold="demo-mold-paddle", look="demo-look-marsh", count=6)


def pour_day(*batches: PourBatch, **more: Any) -> PourDay:
    tools: dict[str, Any] = {
        "cup": "demo-cup-small", "plastic": "demo-plastic-medium", "microwave": "demo-oven-small",
        "injector": "demo-injector-six", "thermometer": "demo-thermometer-gun",
        "spoons": "demo-spoons", "scale": "demo-scale",
    }  # fmt: skip
    return PourDay(**({"day": "2026-05-02", "batches": batches} | tools | more))


def kept(world: World, id: str, noun: Noun) -> None:
    with world.bench() as bench:
        bench.records.save(noun.key, id, noun, expected_version=0)
        bench.commit()


def no_orders(world: World) -> None:
    """The books without the demo's own orders."""
    with world.bench() as bench:
        for stored in bench.records.all(Order.key):
            bench.records.retire(Order.key, stored.id, expected_version=stored.version)
        bench.commit()


def ordered(
    world: World, id: str, *lines: OrderLine, state: OrderState = OrderState.TAKEN, due_on: str = ""
) -> None:
    with world.reading() as bench:
        known = {s.id for s in bench.records.all(Customer.key)}
    if "test-customer" not in known:
        kept(world, "test-customer", Customer(name="Juno Marsh"))
    order = Order(
        customer="test-customer", taken_on="2026-04-20", due_on=due_on, state=state, lines=lines
    )
    kept(world, id, order)
