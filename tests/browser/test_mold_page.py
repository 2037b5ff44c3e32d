"""Can a person see whether a mold fills, change the push, time a shot and take it back?"""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.bench_sight import barriers
from browser.watch import LAPTOP, PHONE, opened

WORM = "/molds/demo-mold-worm"
SMALL = (360, 640)
SIDEWAYS = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
LOW = (
    "its => its.filter(e => e.offsetParent && e.getBoundingClientRect().height < 47.5)"
    ".map(e => e.outerHTML.slice(0, 90))"
)
SHARE = ".mold-odds > strong"


@pytest.mark.parametrize("size", [SMALL, PHONE, LAPTOP], ids=["small", "phone", "laptop"])
def test_it_fits_and_has_no_barriers(browser: Browser, bench_server: str, size: tuple[int, int]):
    with opened(browser, bench_server, size, touch=size != LAPTOP) as page:
        page.goto(WORM)
        expect(page.locator(SHARE)).to_have_text(re.compile(r"\d+\s%"))
        assert page.evaluate(SIDEWAYS) <= 0
        assert page.eval_on_selector_all("main :is(a, button, summary, input, select)", LOW) == []
        assert [b for b in barriers(page) if 'class="demo"' not in b] == []
        answer = page.locator(SHARE).bounding_box()
        assert answer is not None
        assert answer["y"] + answer["height"] < size[1]
        picture = page.locator(".mold-picture > svg").first.bounding_box()
        assert picture is not None
        assert picture["width"] > 0.6 * min(size[0], 800)
        assert page.locator(".mold-picture .ring").count() == 4


def test_the_answer_follows_what_is_typed_and_a_calculation_opens(laptop: Page):
    laptop.goto(WORM)
    before = laptop.locator(SHARE).inner_text()
    clamps = laptop.locator("summary", has_text="What the force rests on")
    clamps.click()
    laptop.get_by_label("Plastic when the push begins").fill("285")
    expect(laptop.locator(SHARE)).not_to_have_text(before)
    cold = int(laptop.locator(SHARE).inner_text().split()[0])
    assert cold < int(before.split()[0])
    # What is read aloud is the share beside the button; a fold that was opened stays open.
    expect(laptop.get_by_role("status")).to_have_text(f"{cold}\xa0% of shots come out full")
    expect(laptop.locator("details[open] > summary")).to_have_text([re.compile("the force rests")])
    laptop.get_by_role("button", name="Open this calculation").first.click()
    expect(laptop).to_have_url(re.compile("/questions/fill.odds"))
    expect(laptop.locator("#check-answer")).to_contain_text("%" if cold else "0")


def test_a_shot_is_timed_and_taken_back_on_a_phone(phone: Page):
    phone.goto(WORM)
    flow = phone.locator("#flow")
    expect(flow).to_contain_text("1 timed shot")
    phone.get_by_role("link", name="Change the push").click()
    phone.get_by_label("Stopwatch").fill("2.2")
    phone.get_by_role("button", name="Keep this timed shot").click()
    expect(flow).to_contain_text("2 timed shots")
    phone.get_by_role("button", name=re.compile(r"Undo\s*: 2\.2 s")).click()
    expect(flow).to_contain_text("1 timed shot")
    expect(flow).not_to_contain_text("2.2 s")
