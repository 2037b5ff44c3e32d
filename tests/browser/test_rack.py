"""Can a person bag what hangs, label it, undo a slip and find it again by its code?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.bench_sight import barriers
from browser.server import running_bench
from browser.watch import LAPTOP, PHONE, opened
from pourwright import wire
from rack_bench import hung, poured

SIZES = {"phone": PHONE, "laptop": LAPTOP}
SMALL = """[...document.querySelectorAll(
  'main a, main button, main input, main summary, main select')]
.filter(e => e.offsetParent && e.type !== 'radio' && e.type !== 'hidden'
  && e.getBoundingClientRect().height < 47.5).map(e => e.outerHTML)"""


@dataclass(frozen=True)
class Bench:
    """A served bench with a lot that hangs and one that hung long enough."""

    address: str
    early: str
    ready: str


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    folder: Path = tmp_path_factory.mktemp("rack")
    world = wire.world(folder / "bench.db")
    wire.fill_demo_if_empty(world)
    early, ready = poured(world, 12, 24), poured(world, 13, 21)
    hung(world, early, hours_ago=2)
    hung(world, ready, hours_ago=30)
    with running_bench(folder) as address:
        yield Bench(address, early, ready)


def fits(page: Page) -> None:
    for width in (page.viewport_size or {"width": 390})["width"], 360:
        page.set_viewport_size({"width": width, "height": 844})
        wide, room = page.evaluate(
            "[document.documentElement.scrollWidth, document.documentElement.clientWidth]"
        )
        assert wide <= room, f"{page.url} scrolls sideways: {wide} > {room}"
    assert page.evaluate(SMALL) == []


@pytest.mark.parametrize("size", SIZES)
def test_the_pages_fit_and_are_accessible(size: str, browser: Browser, bench: Bench) -> None:
    with opened(browser, bench.address, SIZES[size]) as page:
        for path in ("/rack", f"/rack/bag?lot={bench.ready}", f"/rack/labels?code={bench.ready}"):
            page.goto(path)
            for summary in page.locator("main details > summary").all():
                summary.click()
            fits(page)
            assert barriers(page) == []


def test_bags_are_made_by_thumb_and_taken_back(browser: Browser, bench: Bench) -> None:
    with opened(browser, bench.address, PHONE) as page:
        page.goto("/rack")
        card = page.locator(f"#l-{bench.early}")
        expect(card).to_contain_text("Hangs until")
        card.get_by_role("link", name="Bag them").click()
        page.get_by_label("Baits to a bag").fill("8")
        page.locator(f"[name='take.{bench.early}']").fill("24")
        page.get_by_role("button", name="Bag them").click()
        expect(page.get_by_role("alert")).to_contain_text("should hang for another")
        page.get_by_role("button", name="Bag them anyway").click()
        told = page.locator(".told")
        expect(told).to_contain_text("3 bags of 8")
        told.get_by_role("link", name="Print their labels").click()
        expect(page.get_by_label("How many labels")).to_have_value("3")
        page.go_back()
        page.locator(".told").get_by_role("button", name="Undo").click()
        expect(page.locator(f"#l-{bench.early}")).to_contain_text("24 baits")
        expect(page.locator(".told")).to_have_count(0)


def test_a_scanner_that_types_finds_the_lot(browser: Browser, bench: Bench) -> None:
    with opened(browser, bench.address, LAPTOP) as page:
        page.goto("/rack")
        box = page.get_by_label("Scan or type a code")
        box.press_sequentially(bench.ready[:-2] + bench.ready[-1] + bench.ready[-2])
        box.press("Enter")
        expect(page.get_by_role("alert")).to_contain_text("mistyped or misread")
        page.get_by_label("Scan or type a code").fill(bench.ready)
        page.get_by_label("Scan or type a code").press("Enter")
        page.wait_for_url(f"**/stock/{bench.ready}")


def test_labels_start_where_the_sheet_was_left(browser: Browser, bench: Bench) -> None:
    with opened(browser, bench.address, LAPTOP) as page:
        page.goto(f"/rack/labels?code={bench.ready}")
        page.get_by_text("start at another place").click()
        page.get_by_role("radio", name="30", exact=True).check()
        page.get_by_label("How many labels").fill("2")
        form = page.locator("form[action='/rack/labels.pdf']")
        asked = form.evaluate("f => new URLSearchParams(new FormData(f)).toString()")
        answer = page.request.get(f"{bench.address}/rack/labels.pdf?{asked}")
        assert answer.body().startswith(b"%PDF")
        assert answer.body().count(b"/Type /Page\n") == 2
