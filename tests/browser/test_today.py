"""Does Today say what needs a hand, count by itself, and let a lot be taken off the rack?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.server import running_bench
from browser.watch import LAPTOP, PHONE, opened
from pour_told import Teller
from pourwright import wire
from pourwright.actions.demo import DEMO_DRAFT
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.port import World
from pourwright.actions.pour_setup import pour_setup
from pourwright.actions.told_pour import told_pour
from pourwright.bench import tap_kind as kind
from pourwright.bench.clock import seconds_between
from pourwright.bench.pour_setup import PourSetup

LOOK = "document.dispatchEvent(new Event('visibilitychange'))"
SIZES = {"phone": PHONE, "laptop": LAPTOP}


@dataclass(frozen=True)
class Bench:
    """A served bench, and the same store from inside."""

    address: str
    world: World

    def teller(self) -> tuple[Teller, PourSetup]:
        sheet = freeze_sheet(self.world, DEMO_DRAFT)
        with self.world.bench() as bench:
            return Teller(self.world, sheet), pour_setup(bench, sheet)


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Bench]:
    world = wire.world(tmp_path / "bench.db")
    wire.fill_demo_if_empty(world)
    with running_bench(tmp_path) as address:
        yield Bench(address, world)


def firm_after_s(bench: Bench, teller: Teller) -> float:
    """How long a mold of that pour, filled now, takes to be due."""
    filled = teller.fill(0, 1)
    with bench.world.bench() as unit:
        (firm,) = told_pour(unit, teller.sheet).firm
    teller.tell(0, kind.TAKEN_BACK, event=filled)
    return seconds_between(firm.filled, firm.at)


def fits(page: Page) -> None:
    wide, room = page.evaluate(
        "[document.documentElement.scrollWidth, document.documentElement.clientWidth]"
    )
    assert wide <= room, f"{page.url} scrolls sideways: {wide} > {room}"


@pytest.mark.parametrize("size", SIZES)
def test_a_full_day_fits_and_says_what_is_late(size: str, browser: Browser, bench: Bench) -> None:
    teller, setup = bench.teller()
    teller.hot(3000, setup)
    teller.fill(2900, 1)
    teller, setup = bench.teller()
    teller.finish(90_100, setup)
    teller.hang(90_000)
    with opened(browser, bench.address, SIZES[size]) as page:
        page.goto("/")
        for width in (SIZES[size][0], 360, 834, 1030):
            page.set_viewport_size({"width": width, "height": 800})
            fits(page)
        over = page.locator(".timer.is-over")
        expect(over).to_contain_text("Open it")
        expect(over.locator("svg")).to_be_visible()
        expect(page.locator(".is-overdue").first).to_contain_text("Overdue")
        small = page.evaluate(
            "[...document.querySelectorAll('main a, main button')]"
            ".filter(e => e.offsetParent && e.getBoundingClientRect().height < 47.5)"
            ".map(e => e.textContent)"
        )
        assert small == []


def test_a_clock_runs_out_without_a_reload(browser: Browser, bench: Bench) -> None:
    teller, setup = bench.teller()
    teller.hot(3000, setup)
    teller.now = bench.world.clock.now()
    teller.fill(firm_after_s(bench, teller) - 4, 1)
    with opened(browser, bench.address, PHONE) as page:
        page.goto("/")
        page.evaluate("window.same = true")
        expect(page.locator("[data-needs]")).to_be_hidden()
        expect(page.locator("[data-left]")).to_have_text("0:02")
        expect(page.locator("[data-left]")).to_have_text("+0:01")
        expect(page.locator("[data-needs]")).to_be_visible()
        expect(page.locator(".timer.is-over")).to_contain_text("Open it")
        assert page.evaluate("window.same")


def test_a_phone_whose_clock_is_wrong_counts_by_the_laptop(browser: Browser, bench: Bench) -> None:
    teller, setup = bench.teller()
    teller.ready(100, setup)
    teller.now = bench.world.clock.now()
    teller.tell(5, kind.BEGUN, cup=1, for_s=600)
    with opened(browser, bench.address, PHONE) as page:
        page.add_init_script("const right = Date.now; Date.now = () => right() + 3_600_000;")
        page.goto("/")
        left = page.locator("[data-left]").inner_text()
        assert left.startswith("9:"), left


def test_what_is_tapped_elsewhere_shows_by_itself(browser: Browser, bench: Bench) -> None:
    teller, setup = bench.teller()
    with opened(browser, bench.address, LAPTOP) as page:
        page.goto("/")
        expect(page.locator("main")).to_contain_text("Nothing is being poured")
        page.evaluate("window.same = true")
        teller.ready(5, setup)
        page.evaluate(LOOK)
        expect(page.locator(".run")).to_contain_text("Heat: the cup")
        teller.tell(1, kind.PUT_AWAY)
        page.evaluate(LOOK)
        expect(page.locator(".run")).to_have_count(0)
        expect(page.locator("main")).to_contain_text("Take it up again")
        assert page.evaluate("window.same")


def test_without_scripts_the_time_of_day_stands_there(browser: Browser, bench: Bench) -> None:
    teller, setup = bench.teller()
    teller.hot(3000, setup)
    teller.now = bench.world.clock.now()
    teller.fill(1, 1)
    context = browser.new_context(base_url=bench.address, java_script_enabled=False)
    page = context.new_page()
    page.goto("/")
    assert page.locator(".timer-at").inner_text().startswith("at ")
    assert page.locator("[data-left]").inner_text() == ""
    context.close()


def test_a_lot_is_taken_off_and_hung_again(browser: Browser, bench: Bench) -> None:
    teller, setup = bench.teller()
    teller.finish(90_100, setup)
    teller.hang(90_000)
    with opened(browser, bench.address, PHONE, touch=True) as page:
        page.goto("/")
        page.click("text=Taken off")
        page.wait_for_selector("text=Taken off the rack")
        expect(page.locator("main")).to_contain_text("Nothing hangs")
        page.click("text=Undo")
        page.wait_for_selector("text=Overdue")


def test_the_bench_is_one_tap_away(browser: Browser, bench: Bench) -> None:
    teller, setup = bench.teller()
    with opened(browser, bench.address, PHONE, touch=True) as page:
        page.goto("/")
        page.click("nav.below a[href='/bench']")
        expect(page.locator("main")).to_contain_text(f"Sheet {teller.sheet.number}")
        fits(page)
        teller.ready(5, setup)
        page.goto("/")
        page.click("nav.below a[href='/bench']")
        page.wait_for_url(f"**/sheets/{teller.sheet.number}/bench")


def test_the_story_of_a_pour_fits_a_phone(browser: Browser, bench: Bench) -> None:
    teller, setup = bench.teller()
    teller.finish(3000, setup)
    with opened(browser, bench.address, PHONE) as page:
        page.goto(f"/lots/{teller.sheet.number}")
        page.click("text=What happened")
        fits(page)
        table = page.locator(".story .table")
        wide, room = table.evaluate("e => [e.scrollWidth, e.clientWidth]")
        assert wide <= room
        expect(table).to_contain_text("Mold 1 opened")
