"""Can a person read what is left, and get from a month to the tax sheet and its paper?"""

from __future__ import annotations

import datetime as dt
import re

import pytest
from playwright.sync_api import Page, expect

from browser.page_law import open_to_all

TOUCHED = "main button, main a.button, main .crumb a, main summary, main nav a, main .money-what a"
# A quarter that holds sales of the demo bench, whatever the day: they go back seven months.
SOLD_ON = dt.date.today() - dt.timedelta(days=97)  # noqa: DTZ011  any day near it will do
QUARTER = f"/money/quarter/{SOLD_ON.year}-{(SOLD_ON.month - 1) // 3 + 1}"


@pytest.mark.parametrize("size", ["phone", "laptop"])
@pytest.mark.parametrize("address", [f"/money?year={SOLD_ON.year}", QUARTER])
def test_nothing_scrolls_sideways_and_what_is_touched_is_tall_enough(
    address: str, size: str, request: pytest.FixtureRequest
) -> None:
    page: Page = request.getfixturevalue(size)
    page.goto(address)
    open_to_all(page, TOUCHED)


def test_from_the_bars_to_a_sheet_and_its_sale(phone: Page) -> None:
    phone.goto(f"/money?year={SOLD_ON.year}")
    assert phone.locator(".money-chart .inner").count() >= 1
    phone.locator(".money-quarters a").first.click()
    phone.goto(QUARTER)
    expect(phone.locator(".caution")).to_contain_text("Not tax advice")
    with phone.expect_download() as paper:
        phone.click("text=Print it (PDF)")
    assert paper.value.suggested_filename.startswith("tax-sheet-")
    phone.locator(".money-what a").first.click()
    expect(phone).to_have_url(re.compile("/sales/"))


def test_the_country_is_one_tap(browser, empty_server: str) -> None:
    page = browser.new_page()
    page.goto(f"{empty_server}/money/quarter/2026-Q2")
    expect(page.locator("main")).not_to_contain_text("Tax of the quarter")
    page.click("text=United States")
    expect(page.locator(".money-figure")).to_contain_text("$0.00")
    page.close()
