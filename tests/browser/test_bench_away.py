"""What the bench page says, refuses and still leads to while the laptop is away or slow."""

from __future__ import annotations

import re
from datetime import datetime
from zoneinfo import ZoneInfo

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.bench_sight import LINKED, OUT, SENT, STEP, bench_page, shown
from browser.bench_stand_in import StandIn
from browser.bench_states import (
    burst,
    clock,
    iso,
    live,
    main,
    pad,
    phase,
    pour,
    reading,
    screen,
    state,
)

NEEDS = "That step needs the laptop: one before it was not foreseen."
ROW = """async ([rows, read]) => {
  const { rowFor } = await import('/static/bench/phase.js');
  return rowFor(rows, read).next;
}"""
ZONE = "America/Denver"


@pytest.fixture
def page(faulty_page: Page) -> Page:
    return faulty_page


def gone(page: Page, server: StandIn) -> None:
    server.leave()
    page.wait_for_function(OUT, timeout=6500)


def back(page: Page, server: StandIn) -> None:
    server.go()
    page.wait_for_function(LINKED)
    page.wait_for_function(SENT)


@pytest.mark.parametrize(
    ("number", "unit", "leads"),
    [
        (70, "f", "burst-long"), (250, "f", "burst-long"), (250.1, "f", "burst-short"),
        (329, "f", "pour"), (330, "f", "pour"), (331, "f", "stop"), (450, "f", "stop"),
        (20, "c", "burst-long"), (121, "c", "burst-long"), (122, "c", "burst-short"),
        (166, "c", "pour"), (167, "c", "stop"), (230, "c", "stop"),
    ],
)  # fmt: skip
def test_a_reading_takes_the_row_at_or_above_it(
    page: Page, number: float, unit: str, leads: str
) -> None:
    """The shorter burst of the two rows beside it: common practice, no source."""
    pads = [one for it in burst()["phases"] for one in it["pads"] if one["next_by"]]
    rows = list(reversed(pads[0]["next_by"]))
    assert page.evaluate(ROW, [rows, {"number": number, "unit": unit}]) == leads


def test_a_reading_above_all_rows_stops_the_heat(page: Page, server: StandIn) -> None:
    shown(page, server, state(reading()))
    gone(page, server)
    page.keyboard.type("401")
    page.keyboard.press("Enter")
    expect(page.locator(STEP)).to_contain_text("Stop heating")


def test_no_mold_is_filled_after_a_step_that_nobody_foresaw(page: Page, server: StandIn) -> None:
    opened = main("Opened", "opened", next="pour-2")
    waits = screen("wait", "Cool", phase("Mold 1", opened, pad("Rewarm", "rewarm")))
    shown(page, server, state(waits, clocks=[clock(3, 600)]))
    gone(page, server)
    page.click("text=Rewarm")
    expect(page.locator("#wait")).to_have_text("Kept on this phone. Waiting for the laptop")
    page.wait_for_timeout(400)
    page.keyboard.press("Space")
    expect(page.locator(STEP)).to_contain_text("Mold 2")
    expect(page.locator("#wait")).to_have_text(NEEDS)
    page.wait_for_timeout(400)
    before = page.locator(".chip-time").inner_text()
    page.keyboard.press("Space")
    expect(page.locator("#brief")).to_have_text(NEEDS)
    assert [tap["kind"] for tap in page.evaluate("window.bench.outbox()")] == ["rewarm", "opened"]
    page.wait_for_timeout(1100)
    assert page.locator(".chip-time").inner_text() != before
    back(page, server)
    expect(page.locator("#wait")).to_have_text("")
    page.keyboard.press("Space")
    expect(page.locator(STEP)).to_contain_text("Mold 3")
    page.wait_for_function(SENT)
    assert [tap["kind"] for tap in server.taps] == ["rewarm", "opened", "filled"]


def test_a_step_the_pads_foresaw_fills_without_the_laptop(page: Page, server: StandIn) -> None:
    shown(page, server, state(pour()))
    gone(page, server)
    for mold in (2, 3):
        page.keyboard.press("Space")
        expect(page.locator(STEP)).to_contain_text(f"Mold {mold}")
        page.wait_for_timeout(400)
    assert len(page.evaluate("window.bench.outbox()")) == 2


def test_no_mold_is_filled_after_an_undo_only_the_laptop_can_make(
    page: Page, server: StandIn
) -> None:
    undo = {"id": "b" * 32, "words": "Cup 1 hot", "at": iso()}
    shown(page, server, state(pour(), undo=undo))
    gone(page, server)
    page.locator(".undo").click(delay=1200)
    page.wait_for_timeout(400)
    page.keyboard.press("Space")
    expect(page.locator("#brief")).to_have_text(NEEDS)
    assert len(page.evaluate("window.bench.outbox()")) == 1


def test_a_pad_nobody_foresaw_is_not_pressed_twice_in_a_row(page: Page, server: StandIn) -> None:
    lone = screen("lone", "Pour", phase("", main("Warm-up shot", "warm_up")))
    shown(page, server, state(lone))
    gone(page, server)
    page.keyboard.press("Space")
    page.wait_for_timeout(600)
    page.keyboard.press("Space")
    assert len(page.evaluate("window.bench.outbox()")) == 1


def test_trouble_halts_the_pour_without_the_laptop(page: Page, server: StandIn) -> None:
    gone(page, server)
    page.click("#trouble")
    page.click("text=Too hot or smoking")
    page.click("#trouble-over .pad.is-main")
    expect(page.locator(STEP)).to_contain_text("Halted")
    page.wait_for_timeout(400)
    page.keyboard.press("Space")
    expect(page.locator(STEP)).to_contain_text("Next burst")
    back(page, server)
    assert [tap["kind"] for tap in server.taps] == ["trouble", "safe"]


def test_taps_that_will_not_go_are_counted_though_linked(page: Page, server: StandIn) -> None:
    server.status = 503
    page.keyboard.press("Space")
    page.wait_for_timeout(3000)
    expect(page.locator("#link-words")).not_to_contain_text("to send", timeout=1)
    expect(page.locator("#link-words")).to_contain_text("Linked · 1 tap to send", timeout=4000)
    page.keyboard.press("Space")
    expect(page.locator("#link-words")).to_contain_text("2 taps to send")
    server.status = 200
    page.wait_for_function(SENT)
    expect(page.locator("#link-words")).not_to_contain_text("to send")


@pytest.mark.parametrize("size", [(390, 844), (1440, 900)])
def test_what_was_reckoned_before_the_outage_says_when(
    browser: Browser, server: StandIn, size: tuple[int, int]
) -> None:
    with bench_page(browser, server, size, faults=False, timezone_id=ZONE) as page:
        shown(page, server, state(burst(), live={**live(), "pourable_until": iso(8)}))
        expect(page.locator("#live-chip")).not_to_contain_text("at ")
        moment = datetime.fromisoformat(page.evaluate("window.bench.state().now"))
        as_of = moment.astimezone(ZoneInfo(ZONE)).strftime("at %H:%M")
        until = datetime.fromisoformat(page.evaluate("window.bench.state().live.pourable_until"))
        out_at = until.astimezone(ZoneInfo(ZONE)).strftime("%H:%M")
        gone(page, server)
        expect(page.locator("#live-as-of")).to_have_text(as_of)
        expect(page.locator("#live-name")).to_have_text("Too cool to pour since", timeout=9000)
        if size[0] == 390:
            page.click("#live-chip")
        line = page.locator("#told-over" if size[0] == 390 else "#line")
        expect(line).to_contain_text(re.compile(rf"338 °F \(334 to 342\) {as_of}"))
        expect(line).to_contain_text(f"The time to pour ran out at {out_at}")
        expect(line).not_to_contain_text("left to pour")
        expect(line).not_to_contain_text("Pourable for")
