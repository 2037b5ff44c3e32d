"""Can a person put a phone beside the pot, and shut it out again?"""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from importlib.resources import files

import pytest
import zxingcpp
from PIL import Image
from playwright.sync_api import Browser, Page, expect

from browser.phone_bench import CAN, PhoneBench, fresh, phone_bench, started
from browser.watch import LAPTOP, PHONE, opened

AXE = files("axe_playwright_python").joinpath("axe.min.js").read_text(encoding="utf-8")
BARRIERS = """async () => {
  const rules = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];
  const found = await axe.run({runOnly: rules});
  return found.violations.map(it => `${it.id}: ${it.nodes[0].html}`);
}"""
SHORT = (
    "its => its.filter(e => e.offsetParent && e.getBoundingClientRect().height < 47.5)"
    ".map(e => e.outerHTML.slice(0, 90))"
)


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[PhoneBench]:
    with phone_bench(tmp_path_factory.mktemp("bench")) as it:
        yield it


@pytest.fixture(scope="module")
def stranger(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    """A browser that trusts nobody's certificate."""
    with started(browser, tmp_path_factory.mktemp("stranger")) as own:
        yield own


def scanned(page: Page) -> str:
    """What another program reads from the screen."""
    page.bring_to_front()
    taken = Image.open(io.BytesIO(page.screenshot()))
    (found,) = zxingcpp.read_barcodes(taken)
    return found.text


@pytest.mark.parametrize("light", ["light", "dark"])
@pytest.mark.parametrize("size", [PHONE, LAPTOP])
def test_the_code_reads_from_the_screen(
    browser: Browser, bench: PhoneBench, size: tuple[int, int], light: str
) -> None:
    here, there = bench.here, bench.there
    with opened(browser, here, size) as page:
        page.emulate_media(color_scheme="dark" if light == "dark" else "light")
        page.goto("/phones")
        page.locator("main form button").click()
        expect(page.locator(".scan-code svg")).to_be_in_viewport(ratio=1)
        assert re.fullmatch(rf"{there}/pair/[\w-]{{22}}", scanned(page))


def test_a_phone_is_paired_works_and_is_revoked(stranger: Browser, bench: PhoneBench) -> None:
    here, there = bench.here, bench.there
    with opened(stranger, here, LAPTOP) as laptop, fresh(stranger, passes=True) as phone:
        laptop.goto("/workplace")
        laptop.get_by_role("link", name="Phones").click()
        laptop.locator("main form button").click()
        expect(laptop.locator("[data-clock]")).to_have_text(re.compile(r"[45]:\d\d"))

        phone.goto(scanned(laptop))
        phone.get_by_label("Name of this phone").fill("Phone at the pot")
        phone.get_by_role("button", name="Pair this phone").click()
        expect(phone.get_by_role("heading", name="Today")).to_be_visible()
        assert phone.evaluate(CAN) == {"secure": True, "awake": True}

        # The laptop notices by itself.
        expect(laptop.get_by_text("A phone has used the code.")).to_be_visible(timeout=10_000)
        laptop.get_by_role("link", name=re.compile("Revoke.*Phone at the pot")).click()
        expect(laptop.get_by_role("heading", name="Revoke Phone at the pot?")).to_be_visible()
        laptop.get_by_role("button", name="Revoke").click()
        expect(laptop.get_by_text(re.compile(r"; revoked \w{3}, \w{3} "))).to_be_visible()

        phone.goto(f"{there}/shelf")
        expect(phone.get_by_role("heading", name="Not paired")).to_be_visible()
        expect(phone.get_by_text("on the laptop open Workplace, then Phones")).to_be_visible()


def test_the_cookie_is_out_of_reach_of_scripts(stranger: Browser, bench: PhoneBench) -> None:
    here = bench.here
    with opened(stranger, here, LAPTOP) as laptop, fresh(stranger, passes=True) as phone:
        laptop.goto("/phones")
        laptop.locator("main form button").click()
        phone.goto(laptop.locator(".scan-address").first.inner_text())
        phone.get_by_role("button", name="Pair this phone").click()
        expect(phone.get_by_role("heading", name="Today")).to_be_visible()
        assert phone.evaluate("document.cookie") == ""
        (kept,) = phone.context.cookies()
        assert (kept["httpOnly"], kept["secure"], kept["sameSite"]) == (True, True, "Lax")
        days = (kept["expires"] - phone.evaluate("Date.now() / 1000")) / 86400
        assert 390 < days <= 400


@pytest.mark.parametrize("size", [PHONE, (360, 640), (844, 390), LAPTOP])
def test_every_pad_can_be_hit_and_nothing_runs_off(
    stranger: Browser, bench: PhoneBench, size: tuple[int, int]
) -> None:
    here, there = bench.here, bench.there
    width, height = size
    context = stranger.new_context(
        viewport={"width": width, "height": height}, ignore_https_errors=True
    )
    page = context.new_page()
    page.goto(f"{here}/phones")
    page.locator("main form button").click()
    pair = page.locator(".scan-address").first.inner_text()
    for address in (f"{here}/phones", pair, f"{there}/phones/trust", f"{here}/phones/trust"):
        page.goto(address)
        page.evaluate("document.querySelectorAll('details').forEach(it => { it.open = true })")
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert page.eval_on_selector_all("main button, main .button, main summary", SHORT) == []
    page.goto(pair)
    pad = page.get_by_role("button", name="Pair this phone")
    pad.scroll_into_view_if_needed()
    box = pad.bounding_box()
    assert box is not None
    assert box["height"] >= 96
    context.close()


@pytest.mark.parametrize("light", ["light", "dark"])
@pytest.mark.parametrize("size", [PHONE, LAPTOP])
def test_no_barrier_stands_on_these_pages(
    stranger: Browser, bench: PhoneBench, size: tuple[int, int], light: str
) -> None:
    """The rules of WCAG 2.2, level AA, as far as another program can judge them."""
    here, there = bench.here, bench.there
    width, height = size
    context = stranger.new_context(
        viewport={"width": width, "height": height},
        ignore_https_errors=True,
        color_scheme="dark" if light == "dark" else "light",
    )
    page = context.new_page()
    page.goto(f"{here}/phones")
    page.locator("main form button").click()
    pair = page.locator(".scan-address").first.inner_text()
    for address in (f"{here}/phones", pair, f"{here}/phones/trust", f"{there}/shelf"):
        page.goto(address)
        page.evaluate("document.querySelectorAll('details').forEach(it => { it.open = true })")
        page.evaluate(AXE)
        assert page.evaluate(BARRIERS) == []
    context.close()
