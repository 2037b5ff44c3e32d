"""Can a person lay out a pour day on a phone, and take the better one on the laptop?"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from browser.page_law import fits
from browser.server import running_bench
from browser.watch import LAPTOP, PHONE, opened
from pour_day_bench import no_orders, ordered
from pourwright.shop.order import OrderLine
from ready_store import demo_bench

NARROW = (360, 640)
TOUCHED = "main .button, main button:not(.first), main summary"
LINE = OrderLine(bait="demo-bait-paddle", look="demo-look-marsh", packs=1, baits_each=6)
WORMS = OrderLine(bait="demo-bait-worm", look="demo-look-marsh", packs=2, baits_each=8)


@pytest.fixture
def address(tmp_path: Path) -> Iterator[str]:
    world = demo_bench(tmp_path)
    no_orders(world)
    ordered(world, "one", LINE, WORMS)
    with running_bench(tmp_path) as found:
        yield found


@pytest.mark.parametrize("size", [NARROW, PHONE])
def test_a_day_is_laid_out_on_a_phone(browser: Browser, address: str, size) -> None:
    with opened(browser, address, size) as page:
        page.goto(f"{address}/pour-day")
        fits(page, TOUCHED)
        page.get_by_role("button", name="Lay out the day").click()
        expect(page.get_by_role("heading", name="What to do when")).to_be_visible()
        fits(page, TOUCHED)
        scrolls = page.locator(".day-scroll").evaluate("it => it.scrollWidth > it.clientWidth")
        assert scrolls, "the picture scrolls inside its own box"


def test_a_day_too_long_is_split_on_a_phone(browser: Browser, address: str) -> None:
    with opened(browser, address, NARROW) as page:
        page.goto(f"{address}/pour-day")
        page.get_by_text("Hands, kits and times").click()
        page.get_by_label("Hours the microwaves may run").fill("0.25")
        page.get_by_role("button", name="Lay out the day").click()
        press = page.get_by_role("button", name="Split over")
        expect(press).to_be_visible()
        fits(page, TOUCHED)
        press.click()
        expect(press).to_have_count(0)
        page.get_by_text("Other pour days").click()
        expect(page.locator(".drafts li")).to_have_count(1)
        fits(page, TOUCHED)


def test_the_laptop_looks_for_a_better_day_and_freezes_it(browser: Browser, address: str) -> None:
    with opened(browser, address, LAPTOP) as page:
        page.goto(f"{address}/pour-day")
        page.get_by_role("button", name="Lay out the day").click()
        found = page.locator("#seek-words")
        expect(found).to_contain_text("found", timeout=60_000)
        if page.locator("#take").is_visible():
            page.get_by_role("button", name="Take the better timetable").click()
        page.get_by_role("button", name="Freeze its batch sheets").click()
        expect(page.get_by_text("The sheets are frozen")).to_be_visible()
        expect(page.get_by_text("Next, at")).to_be_visible()
        fits(page, TOUCHED)
