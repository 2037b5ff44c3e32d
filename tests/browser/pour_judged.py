"""What must hold of a whole pour, by whatever hand it was done.

Behind the thermometer stands a kitchen that shares no line and no number with the product; the
bounds of the cups are those of the closed loop of heating.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from playwright.sync_api import Browser, Page

from browser.pour_hand import LINKED, Hand
from browser.pour_server import PourServer
from browser.watch import PHONE

SEED = 7
TARGET_C, NEAR_K, LIMIT_C = 175.0, 6.0, 200.0
BECOMES = {"cup_read": "cup_worked", "count_closed": "counted"}


@contextmanager
def phone(browser: Browser, address: str) -> Iterator[Page]:
    """A phone of its own, with nothing kept on it yet."""
    width, height = PHONE
    context = browser.new_context(
        viewport={"width": width, "height": height}, has_touch=True, is_mobile=True
    )
    try:
        page = context.new_page()
        page.goto(address)
        page.wait_for_function(LINKED)
        yield page
    finally:
        context.close()


def shots_g(server: PourServer, sheet: int) -> dict[int, float]:
    """What one shot draws from each cup."""
    with server.world().bench() as bench:
        return {cup["number"]: cup["shot_g"] for cup in bench.sheets.get(sheet).plan["cups"]}


def one_to_one(server: PourServer, sheet: int, *hands: Hand) -> None:
    """Every tap a browser made is in the ledger once, in its order, and nothing else is."""
    lot = [recorded.event for recorded in server.lot(sheet)]
    made = [tap for hand in hands for tap in hand.made.values()]
    assert sorted(event.id for event in lot) == sorted(tap["id"] for tap in made)
    kinds = {event.id: event.kind for event in lot}
    for tap in made:
        assert kinds[tap["id"]] == BECOMES.get(tap["kind"], tap["kind"])
    places = {event.id: place for place, event in enumerate(lot)}
    for hand in hands:
        order = [places[key] for key in hand.made]
        assert order == sorted(order)
    with server.world().bench() as bench:
        assert bench.ledger.check() > len(lot)


def cups_came_out(hand: Hand, cups: int) -> None:
    """Near the target where they were called hot; nowhere over the limit, to the end."""
    assert len(hand.hot_c) == cups
    for cup, mean_c in hand.hot_c.items():
        assert abs(mean_c - TARGET_C) < NEAR_K, (cup, mean_c)
        assert hand.kitchen.peak_c(cup) < LIMIT_C, (cup, hand.kitchen.peak_c(cup))
