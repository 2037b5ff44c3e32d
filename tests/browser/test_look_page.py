"""Can a person see a look change as they move a slider, compare looks, and go back a version?"""

from __future__ import annotations

import os
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.bench_sight import barriers
from browser.watch import LAPTOP, PHONE, opened

SHAD = "/looks/demo-look-shad"
COLOR = f"{SHAD}/color?layer=1"
COMPARE = "/looks/compare?look=demo-look-shad&look=demo-look-marsh"
PAGES = (SHAD, COMPARE, COLOR)
FIGURE = "#look-picture"
SMALL, SHORT = (360, 640), (844, 390)
SIDEWAYS = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
LOW = (
    "its => its.filter(e => e.offsetParent && e.getBoundingClientRect().height < 47.5"
    " && !e.closest('.modes')).map(e => e.outerHTML.slice(0, 90))"
)
# A browser that draws no solids shows the bench's own pictures, which is what is tried here.
NO_WEBGL = """const plain = HTMLCanvasElement.prototype.getContext;
HTMLCanvasElement.prototype.getContext = function (kind, more) {
  return kind === "webgl2" ? null : plain.call(this, kind, more);
};"""
# From the move of a slider to its preview, in ms.
PREVIEW_MS = 150


@pytest.fixture
def plain(laptop: Page) -> Page:
    """A laptop whose browser draws no solids."""
    laptop.add_init_script(NO_WEBGL)
    return laptop


@pytest.fixture
def bare(browser: Browser, bench_server: str) -> Iterator[Page]:
    """A page without scripts."""
    context = browser.new_context(base_url=bench_server, java_script_enabled=False)
    yield context.new_page()
    context.close()


def shown(page: Page, turn: int, size: str) -> None:
    expect(page.locator(FIGURE)).to_have_attribute("data-turn", str(turn))
    expect(page.locator(FIGURE)).to_have_attribute("data-size", size)


def slid(page: Page, name: str, value: float) -> None:
    """Move a slider as a hand does."""
    page.locator(f".slider:has([name='{name}']) input[type=range]").fill(str(value))


def source(page: Page) -> str:
    return page.locator(f"{FIGURE} .look-image").first.get_attribute("src") or ""


def wide(page: Page) -> int:
    image = page.locator(f"{FIGURE} .look-image").first
    return int(image.evaluate("it => it.naturalWidth"))


def test_a_slider_shows_a_preview_at_once_and_the_full_picture_when_it_rests(plain: Page) -> None:
    """The best of several, each given as much longer as others wait for this machine's cores."""
    plain.goto(COLOR)
    taken = []
    for drops in range(6, 18):
        slid(plain, "amount-0", drops)
        expect(plain.locator(FIGURE)).to_have_attribute("data-turn", str(drops - 5))
        taken.append(int(plain.locator(FIGURE).get_attribute("data-ms") or 9999))
    crowd = max(1.0, os.getloadavg()[0] / (os.cpu_count() or 1))
    assert min(taken) <= PREVIEW_MS * crowd, taken
    assert source(plain).startswith("blob:")
    shown(plain, 12, "full")
    assert wide(plain) == 640


def test_of_many_moves_only_the_newest_stays(plain: Page) -> None:
    plain.goto(SHAD)
    before = source(plain)
    ranged = plain.locator(".slider:has([name='split.line_height']) input[type=range]")
    ranged.evaluate(
        "it => { for (const v of [0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8]) {"
        " it.value = v; it.dispatchEvent(new Event('input', { bubbles: true })); } }"
    )
    shown(plain, 7, "full")
    assert source(plain) != before
    assert plain.locator("[name='split.line_height']").input_value() == "0.8"
    plain.click("text=Save these lines")
    expect(plain.locator("h3", has_text="Version 2, as it is now")).to_be_visible()
    assert plain.locator("[name='split.line_height']").input_value() == "0.8"
    plain.click("text=Bring back")
    expect(plain.locator("h3", has_text="Version 3, as it is now")).to_be_visible()
    assert plain.locator("[name='split.line_height']").input_value() == ""


def test_the_address_carries_what_is_looked_at(plain: Page) -> None:
    plain.goto(SHAD)
    plain.locator("[name=where][value='under water']").check(force=True)
    plain.select_option("[name=water]", "muddy")
    plain.fill("[name=depth_m]", "2")
    expect(plain.locator("#fish")).to_contain_text("in muddy water, 2 ft")
    expect(plain.locator(f"{FIGURE} figcaption")).to_contain_text("under water")
    shown(plain, 3, "full")
    plain.reload()
    assert plain.locator("[name=where][value='under water']").is_checked()
    assert plain.locator("[name=depth_m]").input_value() == "2"
    assert not plain.locator("[name=ground]").is_visible()
    expect(plain.locator("#fish")).to_contain_text("in muddy water, 2 ft")


def test_what_cannot_be_is_said_beside_the_picture(plain: Page) -> None:
    plain.goto(SHAD)
    before = source(plain)
    plain.fill("[name=depth_m]", "900")
    expect(plain.locator(f"{FIGURE} .trouble")).to_contain_text("must lie between")
    assert source(plain) == before
    plain.fill("[name=depth_m]", "3")
    shown(plain, 2, "full")
    expect(plain.locator(f"{FIGURE} .trouble")).to_be_hidden()


def test_keys_move_it_too(plain: Page) -> None:
    plain.goto(COLOR)
    plain.locator(".slider input[type=range]").first.focus()
    plain.keyboard.press("ArrowRight")
    shown(plain, 1, "full")
    assert plain.locator("[name=amount-0]").input_value() == "6"


def test_the_finest_picture_comes_when_it_is_done(plain: Page) -> None:
    plain.goto(SHAD)
    plain.click("#fine")
    fine = plain.locator("#fine-picture")
    expect(fine).to_be_visible()
    expect(fine).to_have_js_property("naturalWidth", 1280)


def test_looks_are_compared_without_a_script(bare: Page) -> None:
    bare.goto("/looks")
    for tick in bare.locator("input[name=look]").all():
        tick.check()
    bare.click("text=Compare the ticked looks")
    assert bare.locator(".look-image").count() == 8
    bare.goto(SHAD)
    bare.select_option("[name=fish]", "brown trout")
    bare.click("text=See it")
    expect(bare.locator("#fish")).to_contain_text("To a brown trout")


@pytest.mark.parametrize("path", PAGES)
def test_pages_fit_are_big_enough_to_touch_and_can_be_read_by_all(
    path: str, browser: Browser, bench_server: str
) -> None:
    for size in (PHONE, SMALL, SHORT, LAPTOP):
        with opened(browser, bench_server, size) as page:
            page.add_init_script(NO_WEBGL)
            page.goto(path)
            assert page.evaluate(SIDEWAYS) <= 0
            touched = "main button, main a.button, main select, main input:not([type=checkbox])"
            assert (
                page.locator(f"{touched}:not([type=hidden]):not([type=radio])").evaluate_all(LOW)
                == []
            )
            assert [f for f in barriers(page) if 'class="demo"' not in f] == []


def test_the_picture_stays_in_sight_on_a_phone_while_sliders_move(phone: Page) -> None:
    for path, last in ((SHAD, "text=Save these lines"), (COLOR, "text=Save this recipe")):
        phone.goto(path)
        phone.locator(last).scroll_into_view_if_needed()
        box = phone.locator(f"{FIGURE} .look-image").first.bounding_box()
        assert box
        assert -1 <= box["y"] < 60
        assert box["height"] < 0.3 * PHONE[1]
