"""Can a person turn a message into an order on a phone, and send it from the laptop?"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from browser.page_law import fits
from browser.server import running_bench
from browser.watch import LAPTOP, PHONE, opened
from order_bench import BROWN, SHAD, bagged, line, order, order_bench

MESSAGE = (
    "Hey, 24 marsh worms in marsh green and 2 packs of slough shad, packs of 6, by 2999-06-05.\n"
    "My number is 555-1234. Juniper"
)
NARROW = (360, 640)
TOUCHED = "main .button, main button:not(.first)"


@pytest.fixture
def address(tmp_path: Path) -> Iterator[str]:
    world = order_bench(tmp_path)
    bagged(world, "B1", 3)
    order(world, "one", line(2), due="2026-02-01")
    with running_bench(tmp_path) as found:
        yield found


def test_a_message_is_read_asked_about_and_kept_on_a_phone(browser: Browser, address: str):
    with opened(browser, address, NARROW) as page:
        page.goto(f"{address}/orders")
        fits(page, TOUCHED)
        page.get_by_role("link", name="Read a message").click()
        page.get_by_label("The message").fill(MESSAGE)
        page.get_by_role("button", name="Read it").click()
        fits(page, TOUCHED)
        expect(page.locator("mark.said-bait").first).to_have_text("marsh worms")
        expect(page.get_by_text("a number that belongs to nothing that was read")).to_be_visible()
        asked = page.locator(".ord-asked li")
        expect(asked.filter(has_text="24 packs, or 24 baits?")).to_be_visible()
        asked.filter(has_text="24 packs").get_by_role("button", name="24", exact=True).click()
        expect(page.locator("[name='lines[0].packs']")).to_have_value("24")
        asked.filter(has_text="bait: the same words").get_by_role("button").first.click()
        expect(page.locator("[name='lines[1].bait']")).to_have_value(SHAD)
        asked.filter(has_text="look: the same words").get_by_role("button").first.click()
        expect(page.locator("[name='lines[1].look']")).to_have_value(BROWN)
        page.locator("[name='lines[0].baits_each']").fill("8")
        page.get_by_label("Or the name of a new customer").fill("Juniper Vale")
        page.get_by_role("button", name="Take the order").click()
        expect(page.get_by_role("heading", name="Juniper Vale")).to_be_visible()
        expect(page.get_by_role("heading", name="24 packs of 8")).to_be_visible()
        fits(page, TOUCHED)


def test_an_order_leaves_as_a_sale_and_its_answer_is_copied(browser: Browser, address: str):
    with opened(browser, address, LAPTOP) as page:
        page.goto(f"{address}/orders/one")
        page.get_by_role("button", name="Set aside 2 packs from the rack").click()
        page.get_by_role("button", name="Picked into the parcel").click()
        page.get_by_role("button", name="Packed: close the parcel").click()
        page.get_by_role("link", name="Send it").click()
        fits(page, TOUCHED)
        page.get_by_role("button", name="It left: write down the sale").click()
        expect(page.get_by_role("heading", name="Sold: Ada Reed")).to_be_visible()
        page.get_by_role("button", name="Copy").click()
        expect(page.get_by_role("button", name="Cop")).to_have_count(1)
        fits(page, TOUCHED)


def test_the_list_fits_a_phone(browser: Browser, address: str):
    with opened(browser, address, PHONE) as page:
        page.goto(f"{address}/orders")
        expect(page.get_by_text("1 order is late")).to_be_visible()
        fits(page, TOUCHED)
