"""Invented customers and orders for the demo bench."""

from __future__ import annotations

import datetime as dt

from pourwright.actions.invented import INVENTED
from pourwright.actions.port import Bench, Clock
from pourwright.shop.noun import Noun
from pourwright.shop.order import Customer, Order, OrderLine, OrderState


def fill_demo_orders(bench: Bench, clock: Clock) -> None:
    """Put them on the bench, around today."""
    today = dt.date.fromisoformat(clock.now()[:10])
    for key, noun in {**_customers(), **_orders(today)}.items():
        bench.records.save(noun.key, key, noun, expected_version=0)


def _customers() -> dict[str, Noun]:
    return {
        "demo-customer-juniper": Customer(
            name="Juniper Vale", reach="Invented", ship_to="1 Invented Lane\nNowhere", note=INVENTED
        ),
        "demo-customer-tackle-shed": Customer(
            name="The invented dock shop", reach="Invented", note=INVENTED
        ),
    }


def _orders(today: dt.date) -> dict[str, Noun]:
    return {
        "demo-order-shop": Order(
            name="Two boxes for the counter",
            customer="demo-customer-tackle-shed",
            taken_on=_day(today, -9),
            due_on=_day(today, -1),
            channel="visit",
            lines=(_line("demo-bait-paddle", "demo-look-shad", 3),),
            note=INVENTED,
        ),
        "demo-order-juniper": Order(
            customer="demo-customer-juniper",
            taken_on=_day(today, -1),
            due_on=_day(today, 4),
            channel="message",
            lines=(
                _line("demo-bait-worm", "demo-look-marsh", 3),
                _line("demo-bait-paddle", "demo-look-shad", 2),
            ),
            message=_message(today + dt.timedelta(days=4)),
            note=INVENTED,
        ),
        "demo-order-asked": Order(
            customer="demo-customer-juniper",
            taken_on=_day(today, 0),
            channel="message",
            state=OrderState.ASKED,
            lines=(_line("demo-bait-worm", "demo-look-marsh", 10),),
            note=INVENTED,
        ),
    }


def _line(bait: str, look: str, packs: int) -> OrderLine:
    return OrderLine(bait=bait, look=look, packs=packs, baits_each=8)


def _message(due: dt.date) -> str:
    return (
        "Hey, can I get 3 packs of the marsh worms in marsh green, and 2 packs of slough shad? "
        f"By {due:%B} {due.day} if that works. Juniper"
    )


def _day(today: dt.date, ahead: int) -> str:
    return (today + dt.timedelta(days=ahead)).isoformat()
