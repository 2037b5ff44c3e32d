"""Can a person make a mold for a bait, turn it, and take its files along?"""

from __future__ import annotations

import io
import re

import numpy as np
import pytest
from PIL import Image
from playwright.sync_api import Browser, Page, expect

from browser.bench_sight import barriers
from browser.watch import LAPTOP, PHONE, opened
from pourwright.web.make_mold_view import CAVITY

ADDRESS = "/baits/demo-bait-paddle/mold"
CANVAS = ".stage canvas"
MAKE = "button:has-text('Make the mold')"
# A machine that runs other tests beside this one takes its time to cut a mold.
BUSY_MS = 60_000
SMALL = (360, 640)
SIDEWAYS = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
LOW = (
    "its => its.filter(e => e.offsetParent && e.getBoundingClientRect().height < 47.5)"
    ".map(e => e.outerHTML.slice(0, 90))"
)


def made(page: Page) -> None:
    page.emulate_media(reduced_motion="reduce")
    page.goto(ADDRESS)
    page.fill("[name=cavities]", "1")
    page.click(MAKE)
    page.wait_for_url("**/mold?**", timeout=BUSY_MS)
    expect(page.locator("#solid")).to_have_attribute("data-live", "yes", timeout=BUSY_MS)
    expect(page.locator(CANVAS)).to_have_attribute("data-drawn", re.compile("[1-9]"))


def settled(page: Page) -> np.ndarray:
    """What the canvas shows, one row a pixel line."""
    page.evaluate("() => new Promise(r => requestAnimationFrame(() => requestAnimationFrame(r)))")
    shot = page.locator(CANVAS).screenshot()
    return np.asarray(Image.open(io.BytesIO(shot)).convert("RGB")).astype(float)


def share_of(picture: np.ndarray, color: str) -> float:
    """Share of the picture in the hue of a color, whatever light falls on it."""
    wanted = np.array([int(color[i : i + 2], 16) for i in (1, 3, 5)], dtype=float)
    hues = [x - x.mean(axis=-1, keepdims=True) for x in (picture, wanted)]
    sizes = [np.linalg.norm(h, axis=-1) for h in hues]
    alike = (hues[0] @ hues[1]) / np.maximum(sizes[0] * sizes[1], 1e-9)
    return float(((alike > 0.95) & (sizes[0] > 30)).mean())


def test_it_is_made_turned_and_taken_along(laptop: Page) -> None:
    made(laptop)
    picture = settled(laptop)
    assert 0.01 < share_of(picture, CAVITY) < 0.3
    labels = laptop.locator(".stage .mark:not([hidden]) > span")
    assert labels.all_inner_texts() == ["half with pins", "half with sockets"]
    laptop.click("text=From the side")
    assert share_of(settled(laptop), CAVITY) < 0.2 * share_of(picture, CAVITY)
    laptop.locator(CANVAS).press("ArrowUp")
    laptop.locator(CANVAS).press("Enter")
    with laptop.expect_download() as taken:
        laptop.click("a:has-text('STL of half with pins')")
    assert taken.value.suggested_filename == "four-inch-slough-shad-half-with-pins.stl"
    laptop.click("button:has-text('Keep as a mold')")
    expect(laptop.locator("[name=cavities]")).to_have_value("1")
    expect(laptop.locator("[name=bait]")).to_have_value("demo-bait-paddle")


def test_the_page_says_that_it_is_at_work(laptop: Page) -> None:
    laptop.goto(ADDRESS)
    expect(laptop.locator("#making")).to_be_hidden()
    laptop.evaluate(
        "document.getElementById('record').addEventListener('submit', e => e.preventDefault())"
    )
    laptop.click(MAKE)
    expect(laptop.locator("#making")).to_contain_text("some seconds")
    expect(laptop.locator(MAKE)).to_have_attribute("aria-disabled", "true")


def test_without_a_script_the_files_are_there(browser: Browser, bench_server: str) -> None:
    context = browser.new_context(base_url=bench_server, java_script_enabled=False)
    page = context.new_page()
    page.goto(ADDRESS)
    page.fill("[name=cavities]", "1")
    page.click(MAKE)
    page.wait_for_url("**/mold?**", timeout=BUSY_MS)
    expect(page.locator(".stage .outline")).to_be_visible()
    assert page.locator(".mold-takes a").count() == 4
    context.close()


@pytest.mark.parametrize("size", [PHONE, SMALL, LAPTOP])
def test_it_fits_and_has_no_barriers(
    browser: Browser, bench_server: str, size: tuple[int, int]
) -> None:
    with opened(browser, bench_server, size) as page:
        made(page)
        assert page.evaluate(SIDEWAYS) <= 0
        assert page.locator("main button, main a.button, main summary").evaluate_all(LOW) == []
        assert [found for found in barriers(page) if 'class="demo"' not in found] == []
