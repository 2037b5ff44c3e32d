"""The day an order is promised: only what a frozen pour day covers."""

from __future__ import annotations

import dataclasses

import pytest

from pour_day_bench import DARK_SHADS, WORMS, kept, no_orders, ordered, pour_day
from pour_told import ENTRY, Teller
from pourwright.actions.pour_day_freeze import freeze_pour_day
from pourwright.actions.pour_day_lay import kept_day, laid
from pourwright.actions.pour_day_ready import ready_by
from pourwright.actions.see_orders import see_order
from pourwright.shop.lot import COUNTED, body_of
from pourwright.shop.order import OrderLine, OrderState

TODAY = "2026-05-01"
LINE = OrderLine(bait="demo-bait-worm", look="demo-look-marsh", packs=2, baits_each=8)
SHADS = OrderLine(bait="demo-bait-paddle", look="demo-look-marsh", packs=1, baits_each=6)


def poured_on(world, day, count, *, freeze=True):
    batch = dataclasses.replace(WORMS, count=count)
    with world.reading() as bench:
        made = laid(bench, pour_day(batch, day=day))
    kept(world, f"day-{day}", made)
    if freeze:
        freeze_pour_day(world, f"day-{day}", starts_at=f"{day}T07:00:00Z")


def told(world, id="o1", today=TODAY):
    with world.reading() as bench:
        return ready_by(bench, see_order(bench, id, today), today)


@pytest.fixture
def shop(world):
    no_orders(world)
    ordered(world, "o1", LINE, due_on="2026-05-09")
    return world


def test_only_a_frozen_day_is_promised(shop):
    poured_on(shop, "2026-05-02", 16, freeze=False)
    assert told(shop) == ""
    poured_on(shop, "2026-05-03", 16)
    assert told(shop) == "2026-05-03"


def test_too_few_baits_are_no_promise_until_another_day_adds_the_rest(shop):
    poured_on(shop, "2026-05-02", 15)
    assert told(shop) == ""
    poured_on(shop, "2026-05-04", 1)
    assert told(shop) == "2026-05-04"


def test_a_day_gone_by_is_no_promise(shop):
    poured_on(shop, "2026-05-02", 16)
    assert told(shop, today="2026-05-02") == "2026-05-02"
    assert told(shop, today="2026-05-03") == ""


def test_orders_that_come_first_are_poured_first(shop):
    ordered(shop, "o2", LINE, due_on="2026-05-03")
    poured_on(shop, "2026-05-02", 16)
    assert told(shop, "o2") == "2026-05-02"
    assert told(shop, "o1") == ""


def test_a_line_that_nothing_pours_leaves_the_order_without_a_day(shop):
    ordered(shop, "o3", LINE, SHADS, due_on="2026-05-02")
    poured_on(shop, "2026-05-02", 16)
    assert told(shop, "o3") == ""


def test_a_batch_whose_baits_are_counted_is_not_promised_again(shop):
    poured_on(shop, "2026-05-02", 16)
    with shop.reading() as bench:
        sheet = bench.sheets.get(kept_day(bench, "day-2026-05-02").day.batches[0].sheet)
    Teller(shop, sheet).tell(0, COUNTED, **body_of(ENTRY))
    assert told(shop) == ""


def test_an_order_only_asked_for_takes_no_bait_of_a_taken_one(shop):
    ordered(shop, "o2", LINE, state=OrderState.ASKED, due_on="2026-05-02")
    poured_on(shop, "2026-05-02", 16)
    assert told(shop, "o1") == "2026-05-02"
    assert told(shop, "o2") == ""


def test_the_last_of_the_days_it_waits_for_counts(shop):
    ordered(shop, "o4", LINE, SHADS, due_on="2026-05-02")
    poured_on(shop, "2026-05-02", 16)
    with shop.reading() as bench:
        later = laid(bench, pour_day(DARK_SHADS, day="2026-05-06"))
    kept(shop, "shads", later)
    freeze_pour_day(shop, "shads", starts_at="2026-05-06T07:00:00Z")
    assert told(shop, "o4") == "2026-05-06"
