"""Can a person tell what is wrong with a bait, by thumb and at a glance?"""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from browser.page_law import open_to_all

TOUCHED = (
    "main .sights a, main .choices a, main button, main select, main .crumb a, main a.button, "
    "main summary"
)


@pytest.mark.parametrize("size", ["phone", "laptop"])
@pytest.mark.parametrize("address", ["/defects", "/defects/dent?for=lot-1&held=0"])
def test_nothing_scrolls_sideways_and_what_is_touched_is_tall_enough(
    address: str, size: str, request: pytest.FixtureRequest
) -> None:
    page: Page = request.getfixturevalue(size)
    page.goto(address)
    open_to_all(page, TOUCHED)


def test_every_sight_has_a_drawing_of_its_own(phone: Page) -> None:
    phone.goto("/defects")
    drawn = phone.locator(".sights svg").evaluate_all("its => its.map(e => e.innerHTML)")
    assert len(drawn) == phone.locator(".sights a").count()
    assert len(set(drawn)) == len(drawn)
    assert all("bad" in one or "scorched" in one for one in drawn)


def test_from_the_lot_to_a_cause_and_into_its_calculation(phone: Page) -> None:
    phone.goto("/lots/1")
    phone.click("text=What went wrong, and why?")
    expect(phone.locator("select")).to_have_value("lot-1")
    phone.click("text=Dent or hollow side")
    phone.click("text=Let go at once")
    first = phone.locator(".suspect").first
    expect(first).to_contain_text("You let go while the gate was still open")
    expect(first.locator(".likelihood")).to_have_text("Likely")
    expect(phone.locator(".choices [aria-current]")).to_have_count(1)
    first.get_by_role("button").click()
    expect(phone.locator("#check-answer")).to_be_visible()
    expect(phone.locator("h1")).to_contain_text("How long to keep pushing")


def test_another_mold_is_picked_for_its_numbers(laptop: Page) -> None:
    laptop.goto("/defects")
    laptop.select_option("select", label="Slough shad mold, two cavities")
    laptop.click("text=Use these")
    expect(laptop.locator(".lead")).to_contain_text("Slough shad mold")
    laptop.click("text=Thin skin around the edge")
    expect(laptop.locator("#suspects")).to_contain_text("No clamps are on the record")
