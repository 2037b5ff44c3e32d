"""Does "Use this" give the color that its recipe promised?"""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

# Pearl stands in the first by the spoon; a match counts it anew in grams, or leaves it out.
PLACES = ["/looks/demo-look-shad/color?layer=1", "/looks/demo-look-marsh/color?layer=0"]
# Far from pearl's own white, so that some recipe leaves it out.
TARGET = "&target_l=40&target_a=10&target_b=20"


@pytest.mark.parametrize("place", PLACES)
def test_a_used_recipe_is_as_near_as_it_promised(place: str, laptop: Page) -> None:
    laptop.goto(place + TARGET)
    laptop.click("#find")
    cards = laptop.locator(".recipe")
    expect(cards.first).to_be_visible()
    for i in range(cards.count()):
        promised = re.search(r"([0-9.]+) off", cards.nth(i).locator("h3").inner_text())
        assert promised
        cards.nth(i).locator(".use").click()
        expect(laptop.locator("#swatches")).to_have_attribute("data-turn", str(i + 1))
        shown = float(laptop.locator("[data-off]").inner_text())
        assert shown == pytest.approx(float(promised[1]), abs=0.15), f"recipe {i + 1}"


@pytest.mark.parametrize("size", ["phone", "laptop"])
def test_a_bait_sets_its_thickness(size: str, request: pytest.FixtureRequest) -> None:
    page: Page = request.getfixturevalue(size)
    page.goto(PLACES[1])
    page.select_option("#bait", index=1)
    expect(page.locator("#swatches")).to_have_attribute("data-turn", "1")
    assert page.locator("[name=thick_mm]").input_value() == page.locator("#bait").input_value()
    assert page.locator(".swatch-table tbody tr").count() == 5


@pytest.mark.parametrize("size", ["phone", "laptop"])
def test_what_is_touched_is_tall_enough(size: str, request: pytest.FixtureRequest) -> None:
    """48 px, as the house asks of everything off the bench."""
    page: Page = request.getfixturevalue(size)
    page.goto(PLACES[0] + TARGET)
    page.click("#find")
    expect(page.locator(".recipe").first).to_be_visible()
    low = page.locator("main button, main select, main input:not([type=hidden]), main a.button")
    short = low.evaluate_all(
        "its => its.filter(e => e.offsetParent && e.getBoundingClientRect().height < 47.5)"
        ".map(e => e.outerHTML.slice(0, 90))"
    )
    assert short == []
