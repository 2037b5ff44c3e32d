"""Can a person ask a question by hand, on a phone and with the keyboard?"""

from __future__ import annotations

from collections.abc import Iterator
from importlib.resources import files

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.watch import opened

AXE = files("axe_playwright_python").joinpath("axe.min.js").read_text(encoding="utf-8")
VIOLATIONS = "axe.run('main').then(r => r.violations.map(v => v.id + ': ' + v.nodes[0].html))"
SIDEWAYS = "document.documentElement.scrollWidth > document.documentElement.clientWidth"
LOW = (
    "its => its.filter(e => e.offsetParent && e.type !== 'checkbox'"
    " && e.getBoundingClientRect().height < 47.5).map(e => e.outerHTML.slice(0, 90))"
)
TOUCHED = "main button:not(.first), main select, main input:not([type=hidden]), main summary"
QUESTIONS = ("fill.odds", "cool.window", "body.weigh")
SIZES = ((360, 640), (390, 844), (1440, 900))


@pytest.fixture(scope="module", params=SIZES, ids=["small", "phone", "laptop"])
def sized(request: pytest.FixtureRequest, browser: Browser, bench_server: str) -> Iterator[Page]:
    size = request.param
    with opened(browser, bench_server, size, touch=size[0] < 1000) as page:
        yield page


@pytest.mark.parametrize("name", QUESTIONS)
def test_a_question_fits_its_screen_and_can_be_read_by_all(sized: Page, name: str) -> None:
    sized.goto(f"/questions/{name}")
    assert not sized.evaluate(SIDEWAYS)
    assert sized.locator(TOUCHED).evaluate_all(LOW) == []
    # The question can be asked, and its first figure read, without scrolling.
    bar = sized.locator(".ask-bar").bounding_box()
    height = sized.evaluate("innerHeight")
    assert bar
    assert bar["y"] + bar["height"] <= height
    expect(sized.locator("#ask-figure strong")).not_to_be_empty()
    sized.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
    assert not sized.evaluate(SIDEWAYS)
    sized.evaluate(AXE)
    assert sized.evaluate(VIOLATIONS) == []


def test_the_list_fits_its_screen_and_can_be_read_by_all(sized: Page) -> None:
    sized.goto("/questions")
    assert not sized.evaluate(SIDEWAYS)
    assert sized.locator("main a").evaluate_all(LOW) == []
    sized.evaluate(AXE)
    assert sized.evaluate(VIOLATIONS) == []


def test_the_answer_follows_the_keyboard(laptop: Page) -> None:
    laptop.goto("/questions")
    laptop.get_by_role("link", name="Volume and density from a scale").focus()
    laptop.keyboard.press("Enter")
    expect(laptop.locator("h1")).to_have_text("Volume and density from a scale")
    first = laptop.locator(".first-value")
    before = first.inner_text()
    laptop.locator("[name=gained_g]").focus()
    laptop.keyboard.press("Control+a")
    laptop.keyboard.type("11.0")
    expect(first).not_to_have_text(before)
    expect(laptop.locator("#ask-figure strong")).to_have_text(first.inner_text())
    laptop.keyboard.press("Control+a")
    laptop.keyboard.type("900")
    expect(laptop.locator("#check-answer")).to_contain_text("No answer yet")
    expect(laptop.locator("#ask-figure")).to_have_text("no answer yet")
    laptop.keyboard.press("Control+a")
    laptop.keyboard.type("11.0")
    laptop.keyboard.press("Enter")
    expect(first).to_be_visible()
    assert laptop.locator("[name=gained_g]").input_value() == "11.0"


def test_a_row_is_added_in_its_folded_list_and_stays_in_sight(phone: Page) -> None:
    phone.goto("/questions/fill.odds")
    chain = phone.locator("[id='f-chain']")
    expect(chain).to_be_hidden()
    phone.get_by_text("Slices from the nozzle on").first.click()
    rows = chain.locator("> .group")
    count = rows.count()
    chain.get_by_role("button", name="Add another").click()
    expect(rows).to_have_count(count + 1)
    expect(rows.last).to_be_visible()


def test_numbers_are_kept_as_a_file(laptop: Page) -> None:
    laptop.goto("/questions/body.weigh")
    laptop.get_by_text("Take it with you").click()
    with laptop.expect_download() as kept:
        laptop.get_by_role("button", name="Numbers as JSON").click()
    assert kept.value.suggested_filename == "body.weigh.input.json"
