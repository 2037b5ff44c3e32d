"""Is everything in sight and in reach on the bench page, at each size and in each light?"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.bench_sight import (
    COLORS,
    LIGHTS,
    PADS,
    SIZES,
    barriers,
    bench_page,
    boxes,
    contrast,
    narrowest_gap,
    shown,
)
from browser.bench_stand_in import StandIn, stand_in
from browser.bench_states import SCREENS, burst, clock, crowded, live, phase, screen, state, weigh

SIDEWAYS = "document.documentElement.scrollWidth > document.documentElement.clientWidth"
# Pads that must be there without scrolling, at every step.
IN_SIGHT = "#main-place .pad, #trouble"
PRESSED = ".pour button, .pour a, .pour input[type=text], .choice"
LONG_S = 88 * 60 + 58


@pytest.fixture(scope="module")
def server() -> Iterator[StandIn]:
    with stand_in(state(weigh())) as found:
        yield found


@pytest.fixture(params=SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def sized(request: Any, browser: Browser, server: StandIn) -> Iterator[Page]:
    server.show(state(weigh()))
    with bench_page(browser, server, request.param) as page:
        yield page


def assert_in_sight(page: Page, found: list[dict[str, Any]]) -> None:
    assert page.viewport_size
    for box in found:
        assert box["x"] >= 0, box
        assert box["y"] >= 0, box
        assert box["right"] <= page.viewport_size["width"], box
        assert box["bottom"] <= page.viewport_size["height"], box


@pytest.mark.parametrize("name", SCREENS)
def test_each_step_stands_on_the_screen_with_all_that_crowds_it(
    sized: Page, server: StandIn, name: str
) -> None:
    shown(sized, server, crowded(SCREENS[name]()))
    assert not sized.evaluate(SIDEWAYS)
    in_sight = boxes(sized, IN_SIGHT)
    assert len(in_sight) == (1 if name == "burst" else 2)
    assert_in_sight(sized, in_sight)
    pads = boxes(sized, PADS)
    for box in pads:
        assert 96 <= box["height"] <= 128, box
    assert narrowest_gap(pads) >= 15.9
    for box in boxes(sized, PRESSED):
        assert box["height"] >= 47.5, box
        assert box["width"] >= 47.5, box
    if name != "count":
        assert_in_sight(sized, boxes(sized, f"{PADS}, .chip, .entry-box"))
        assert sized.evaluate("document.documentElement.scrollHeight <= innerHeight")
        scrolls = "n => n.scrollHeight > n.clientHeight + 1"
        assert not sized.locator("#now").evaluate(scrolls)


def test_a_clock_of_an_hour_and_more_fits(sized: Page, server: StandIn) -> None:
    late = screen("late", "Heat", phase("Oven on", for_s=1))
    shown(sized, server, state({**late, "began": clock(1, -LONG_S - 1)["until"]},
          clocks=[clock(i, -LONG_S) for i in range(1, 5)], live=live()))  # fmt: skip
    words = sized.locator("#huge-text")
    assert words.inner_text()[:3] == "+88"
    digits = boxes(sized, "#huge-text, .chip-time")
    assert_in_sight(sized, digits)
    assert digits[0]["height"] > 64
    for inner, outer in zip(boxes(sized, ".chip-time"), boxes(sized, ".chip"), strict=True):
        assert inner["right"] <= outer["right"], inner
    assert not sized.evaluate(SIDEWAYS)


@pytest.mark.parametrize("shows", ["burst", "pour"])
def test_what_is_over_says_so_and_the_number_of_its_mold_is_never_cut(
    sized: Page, server: StandIn, shows: str
) -> None:
    shown(sized, server, crowded(SCREENS[shows]()))
    over = sized.locator(".chip.is-over")
    expect(over).to_contain_text("Open it")
    which = sized.locator(".chip-which")
    assert which.all_inner_texts() == ["Mold 1", "Mold 2", "Mold 3", "Mold 4"]
    for n, inner in enumerate(boxes(sized, ".chip-which, .chip-over:not(:empty)")):
        outer = boxes(sized, ".chip")[max(0, n - 1)]
        assert inner["width"] > 20
        assert outer["x"] < inner["x"], inner
        assert inner["right"] <= outer["right"] - 4, inner


@pytest.mark.parametrize("place", ["step", "trouble", "what to do first", "more"])
@pytest.mark.parametrize("light", LIGHTS)
def test_no_barrier_and_text_of_seven_to_one(
    browser: Browser, server: StandIn, light: str, place: str
) -> None:
    """Text: WCAG 2.2 success criterion 1.4.6 asks 7:1 of small text."""
    server.show(crowded(SCREENS["burst" if place == "step" else "drops"]()))
    with bench_page(browser, server, light=light) as page:
        if place == "more":
            page.click("#more")
        elif place != "step":
            page.click("#trouble")
        if place == "what to do first":
            page.click(".trouble-pads .pad >> nth=0")
        assert barriers(page) == []
        faint = [
            (it["what"], round(contrast(it["color"], it["behind"]), 1))
            for it in page.evaluate(COLORS)
            if contrast(it["color"], it["behind"]) < 7
        ]
        assert faint == []


def test_black_on_white_is_21_to_1() -> None:
    """Source: W3C, Web Content Accessibility Guidelines 2.2, 2023, "contrast ratio"."""
    assert contrast([0, 0, 0], [255, 255, 255]) == pytest.approx(21)


@pytest.mark.parametrize("light", LIGHTS)
def test_what_has_the_focus_shows_it(browser: Browser, server: StandIn, light: str) -> None:
    """WCAG 2.2 success criterion 1.4.11 asks 3:1 of what shows a state."""
    server.show(state(SCREENS["drops"]()))
    with bench_page(browser, server, light=light) as page:
        page.keyboard.press("Tab")
        for _ in range(9):
            seen = page.evaluate(
                """() => {
                  const e = document.activeElement;
                  const around = e.closest('.entry-box') || e;
                  const style = getComputedStyle(around);
                  return [style.outlineStyle, style.outlineWidth, style.outlineColor,
                          getComputedStyle(document.body).backgroundColor, e.id || e.textContent];
                }"""
            )
            assert seen[0] == "solid", seen
            assert seen[1] == "3px", seen
            line, paper = ([float(n) for n in text[4:-1].split(",")] for text in seen[2:4])
            assert contrast(line, paper) >= 3, seen
            page.keyboard.press("Tab")


def test_without_scripts_the_page_leads_to_the_sheet(browser: Browser, server: StandIn) -> None:
    context = browser.new_context(base_url=server.address, java_script_enabled=False)
    page = context.new_page()
    page.goto("/sheets/3/bench")
    assert page.locator("#bench").is_hidden()
    assert page.locator("a[href='/sheets/3/sheet.pdf']").is_visible()
    assert page.locator("a[href='/sheets/3']").first.is_visible()
    context.close()


def test_the_line_is_beside_the_step_on_a_laptop_and_over_it_on_a_phone(
    sized: Page, server: StandIn
) -> None:
    assert sized.viewport_size
    shown(sized, server, state(burst(), live=live()))
    expect(sized.locator("#live-chip")).to_contain_text("2:0")
    if sized.viewport_size["width"] == 1440:
        assert_in_sight(sized, boxes(sized, "#line svg"))
    else:
        expect(sized.locator("#line")).to_be_hidden()
        sized.click("#live-chip")
        expect(sized.locator("#told-over")).to_contain_text("338 °F (334 to 342)")
        assert_in_sight(sized, boxes(sized, "#told-over svg"))
