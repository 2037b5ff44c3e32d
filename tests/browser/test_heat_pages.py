"""Can a person look inside a cup, and bring a lot's leftovers into a pot with their past?"""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

SIDEWAYS = "document.documentElement.scrollWidth > document.documentElement.clientWidth"
LOW = (
    "its => its.filter(e => e.offsetParent && e.type !== 'checkbox'"
    " && e.getBoundingClientRect().height < 47.5).map(e => e.outerHTML.slice(0, 90))"
)
TOUCHED = "main button:not(.first), main select, main input:not([type=hidden]), main a.button"


@pytest.mark.parametrize("size", ["phone", "laptop"])
@pytest.mark.parametrize(
    "address", ["/inside-the-cup", "/heat-budget", "/remelt-pots/demo-remelt/heat-budget"]
)
def test_nothing_scrolls_sideways_and_what_is_touched_is_tall_enough(
    address: str, size: str, request: pytest.FixtureRequest
) -> None:
    page: Page = request.getfixturevalue(size)
    page.goto(address)
    assert not page.evaluate(SIDEWAYS)
    assert page.locator(TOUCHED).evaluate_all(LOW) == []


@pytest.mark.parametrize("size", ["phone", "laptop"])
def test_the_picture_follows_the_form(size: str, request: pytest.FixtureRequest) -> None:
    page: Page = request.getfixturevalue(size)
    page.goto("/inside-the-cup")
    hottest = page.locator(".lead-line strong").nth(1)
    before = hottest.inner_text()
    page.fill("[name=power_w]", "420")
    expect(hottest).not_to_have_text(before)
    page.click("text=Remove >> nth=2")
    expect(page.locator("figure")).to_have_count(4)
    page.fill("[name=power_w]", "lots")
    expect(page.locator("#check-answer")).to_contain_text("is not a number")
    ring = page.locator(".hot-ring").first
    page.fill("[name=power_w]", "420")
    expect(ring).to_be_visible()
    glass = page.locator(".glass").first.bounding_box()
    spot = ring.bounding_box()
    assert glass
    assert spot
    assert glass["x"] < spot["x"] < glass["x"] + glass["width"]
    assert glass["y"] < spot["y"] < glass["y"] + glass["height"]


def test_the_plan_leads_into_its_cup(laptop: Page) -> None:
    laptop.goto("/plan")
    laptop.click("text=See inside the cup >> nth=0")
    expect(laptop.locator("h1")).to_contain_text("Inside the cup")
    expect(laptop.locator("#check-answer")).to_contain_text("Power found for that end")


def test_leftovers_go_into_a_pot_and_its_budget_is_kept(phone: Page) -> None:
    phone.goto("/remelt-pots/demo-remelt/heat-budget")
    phone.fill("[name=used_share]", "0.2")
    expect(phone.locator("#check-answer")).to_contain_text("20.0")
    phone.click("text=Keep this share")
    expect(phone).to_have_url(re.compile(r"/shelf\?saved=demo-remelt"))
    phone.goto("/lots/1")
    phone.click("text=Into a pot, with its past")
    phone.fill("#pot-grams", "60")
    phone.click("text=Put it into Dark greens")
    expect(phone.locator("#pot")).to_contain_text("60 g into Dark greens, once heated")
    expect(phone.locator("#pot")).to_contain_text("holds 480 g")
    assert not phone.evaluate(SIDEWAYS)
