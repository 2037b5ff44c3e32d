"""Can a person heat a cup by its page: start the clock, read, see the next round, pour?"""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

SIZES = pytest.mark.parametrize("size", ["phone", "laptop"])
SHORT = (
    "its => its.filter(e => e.offsetParent && e.getBoundingClientRect().height < 47.5)"
    ".map(e => e.outerHTML.slice(0, 90))"
)
TOUCHED = (
    "main button, main select, main input:not([type=hidden]):not([type=checkbox]), "
    "main a.button, main summary, main .flag"
)


def fits(page: Page) -> None:
    wide, room = page.evaluate(
        "[document.documentElement.scrollWidth, document.documentElement.clientWidth]"
    )
    assert wide <= room, f"{page.url} scrolls sideways: {wide} > {room}"


def fresh_cup(page: Page) -> None:
    page.goto("/plan")
    page.click("#plan-form button[value=freeze]:not(.first)")
    page.wait_for_url("**/sheets/*")
    page.click("text=Without the bench")
    page.click("text=Heat cup 1")
    page.wait_for_url("**/cups/1")


def expected_f(page: Page) -> int:
    found = re.search(r"should read (\d+)", page.locator(".then").inner_text())
    assert found
    return int(found[1])


def keep(page: Page, read_f: int) -> None:
    """Enter the advised round from notes."""
    if not page.locator("[name=late]").is_visible():
        page.click(".round summary")
    page.check("[name=late]")
    page.fill("[name=read_c]", str(read_f))
    page.click(".keep")
    page.wait_for_load_state()


@SIZES
def test_from_the_first_burst_to_the_pour(size: str, request: pytest.FixtureRequest) -> None:
    page: Page = request.getfixturevalue(size)
    fresh_cup(page)
    for _ in range(9):
        move = page.locator("#move").inner_text()
        if move == "Pour":
            break
        assert re.match(r"Heat \d|Read once more", move), move
        keep(page, expected_f(page))
    expect(page.locator("#move")).to_have_text("Pour")
    assert page.locator(".read-list li").count() >= 3
    assert page.locator("svg .dot").count() == page.locator(".read-list li").count()
    page.get_by_role("button", name="Poured", exact=True).click()
    expect(page.locator("#move")).to_have_text("Poured")
    page.click("text=Enter what came out")
    page.wait_for_url("**/lots/*")
    expect(page.locator("main")).to_contain_text("next first burst")
    fits(page)


@SIZES
def test_the_wrong_unit_is_asked_about(size: str, request: pytest.FixtureRequest) -> None:
    page: Page = request.getfixturevalue(size)
    fresh_cup(page)
    keep(page, expected_f(page))
    fits(page)
    celsius = round((expected_f(page) - 32) / 1.8)
    keep(page, celsius)
    expect(page.locator("#move")).to_have_text("Which unit?")
    expect(page.locator("svg .cross")).to_have_count(1)
    fits(page)
    page.click(f"text=It was {celsius} °C")
    expect(page.locator("svg .cross")).to_have_count(0)
    expect(page.locator("#move")).not_to_have_text("Which unit?")


@SIZES
def test_the_clock_runs_outlives_a_reload_and_counts(
    size: str, request: pytest.FixtureRequest
) -> None:
    page: Page = request.getfixturevalue(size)
    fresh_cup(page)
    page.clock.install()
    page.reload()
    page.fill("[name=heated_s]", "1:10")
    page.click("#run")
    page.clock.run_for(30_000)
    expect(page.locator("#digits")).to_have_text("0:40")
    page.reload()
    page.clock.run_for(1_000)
    expect(page.locator("#run")).to_have_text("Stopped early")
    page.click("#run")
    assert 30 <= int(page.locator("[name=heated_s]").input_value()) <= 33
    page.clock.run_for(20_000)
    expect(page.locator("#digits")).to_have_text("Stir, read")
    page.fill("[name=read_c]", "99")
    page.click(".keep")
    expect(page.locator(".read-list li").first).to_contain_text(re.compile(r"at 0:5\d"))


@SIZES
def test_the_page_fits_and_its_pads_are_tall(size: str, request: pytest.FixtureRequest) -> None:
    page: Page = request.getfixturevalue(size)
    fresh_cup(page)
    for details in page.locator("main details").all():
        details.locator("summary").click()
    assert page.locator(TOUCHED).evaluate_all(SHORT) == []
    for pad in page.locator(".pad:visible").all():
        box = pad.bounding_box()
        assert box
        assert box["height"] >= 96
    start = page.locator("#run").bounding_box()
    assert start
    shown = page.viewport_size
    assert shown
    assert start["y"] + start["height"] <= shown["height"] - (60 if size == "phone" else 0)
    fits(page)
    page.set_viewport_size({"width": 360, "height": 640})
    fits(page)
    page.goto("/sheets/1/cups/2")
    fits(page)
    page.goto("/records/microwave/demo-oven-small")
    fits(page)
