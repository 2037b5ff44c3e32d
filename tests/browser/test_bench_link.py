"""The bench page when the laptop goes, stalls, comes back or refuses."""

from __future__ import annotations

import time

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.bench_sight import LINKED, OUT, SENT, STEP, bench_page, boxes, shown
from browser.bench_stand_in import PLACE, StandIn
from browser.bench_states import four_clocks, pour, reading, state, weigh


@pytest.fixture
def page(faulty_page: Page) -> Page:
    return faulty_page


def test_a_silent_laptop_is_noticed_within_six_seconds(page: Page, server: StandIn) -> None:
    server.silent = True
    began = time.monotonic()
    expect(page.locator("#link-words")).to_contain_text(
        "Laptop out of reach. Clocks go on", timeout=6000
    )
    assert 3 < time.monotonic() - began < 6
    server.silent = False
    page.wait_for_function(LINKED)
    expect(page.locator("#link-words")).to_contain_text("Linked")


def test_taps_of_an_outage_arrive_once_and_in_order(page: Page, server: StandIn) -> None:
    server.leave()
    page.wait_for_function(OUT, timeout=6500)
    for step in ("Tint", "Heat"):
        page.keyboard.press("Space")
        expect(page.locator(STEP)).to_contain_text(step)
        page.wait_for_timeout(400)
    expect(page.locator("#link-words")).to_contain_text("2 taps kept here")
    page.wait_for_timeout(6000)
    server.go()
    page.wait_for_function(SENT)
    page.wait_for_function(LINKED)
    assert [tap["kind"] for tap in server.taps] == ["part_in", "tinted"]
    assert server.sent_at[0] > server.taps[1]["at"]
    expect(page.locator(STEP)).to_contain_text("Heat")


def test_a_repeat_of_a_lost_answer_carries_the_same_id(page: Page, server: StandIn) -> None:
    server.status = 503
    page.keyboard.press("Space")
    page.wait_for_timeout(1800)
    assert server.posts >= 2
    (waiting,) = page.evaluate("window.bench.outbox()")
    server.status = 200
    page.wait_for_function(SENT)
    assert [tap["id"] for tap in server.taps] == [waiting["id"]]


def test_a_reload_without_the_laptop_opens_the_pour(browser: Browser, server: StandIn) -> None:
    with bench_page(browser, server, faults=False, service_workers="allow") as page:
        shown(page, server, state(weigh(), clocks=four_clocks()))
        page.click("#more")
        expect(page.locator("#how-it-is")).to_contain_text("opens again without", timeout=9000)
        page.keyboard.press("Escape")
        server.leave()
        page.wait_for_function(OUT, timeout=6500)
        page.keyboard.press("Space")
        expect(page.locator(STEP)).to_contain_text("Tint")
        page.reload()
        expect(page.locator("#link-words")).to_contain_text("Laptop out of reach")
        expect(page.locator(STEP)).to_contain_text("Tint")
        assert len(page.evaluate("window.bench.outbox()")) == 1
        expect(page.locator(".chip")).to_have_count(4)
        assert (
            page.locator("#step").evaluate("e => getComputedStyle(e).fontFamily").startswith("Pour")
        )
        assert boxes(page, "#main-place .pad")[0]["height"] >= 96
        server.go()
        page.wait_for_function(SENT)
        assert [tap["kind"] for tap in server.taps] == ["part_in"]


def test_a_reload_beside_a_stalled_laptop_does_not_wait_for_each_part(
    browser: Browser, server: StandIn
) -> None:
    with bench_page(browser, server, faults=False, service_workers="allow") as page:
        page.click("#more")
        expect(page.locator("#how-it-is")).to_contain_text("opens again without", timeout=9000)
        server.silent = True
        began = time.monotonic()
        page.reload()
        expect(page.locator(STEP)).to_contain_text("Weigh")
        assert time.monotonic() - began < 6
        server.silent = False
        page.wait_for_function(LINKED)


def test_the_worker_keeps_neither_states_nor_other_pages(browser: Browser, server: StandIn) -> None:
    with bench_page(browser, server, service_workers="allow") as page:
        page.click("#more")
        expect(page.locator("#how-it-is")).to_contain_text("opens again without", timeout=9000)
        page.keyboard.press("Escape")
        shown(page, server, state(pour()))
        page.keyboard.press("Space")
        page.wait_for_function(SENT)
        page.goto("/book")
        kept = page.evaluate(
            """async () => {
              const found = await (await caches.open('bench-1')).keys();
              return found.map(one => new URL(one.url).pathname);
            }"""
        )
        assert PLACE in kept
        assert [path for path in kept if path != PLACE and not path.startswith("/static/")] == []


def test_an_outage_asks_the_frozen_table(page: Page, server: StandIn) -> None:
    shown(page, server, state(reading()))
    server.leave()
    page.wait_for_function(OUT, timeout=6500)
    page.keyboard.type("304")
    page.keyboard.press("Enter")
    expect(page.locator("#huge-text")).to_have_text("0:20")
    expect(page.locator(STEP)).to_contain_text("Next burst")


def test_undo_in_an_outage_leads_back_at_once(page: Page, server: StandIn) -> None:
    server.leave()
    page.wait_for_function(OUT, timeout=6500)
    page.click("#side-place .pad")
    expect(page.locator(STEP)).to_contain_text("Tint")
    page.wait_for_timeout(400)
    page.click(".undo")
    expect(page.locator(STEP)).to_contain_text("Weigh", timeout=500)
    first, second = page.evaluate("window.bench.outbox()")
    assert second["body"] == {"event": first["id"]}
    server.go()
    page.wait_for_function(SENT)
    assert [tap["id"] for tap in server.taps] == [first["id"], second["id"]]


def test_the_table_is_read_in_the_unit_that_was_chosen(page: Page, server: StandIn) -> None:
    shown(page, server, state(reading()))
    server.leave()
    page.wait_for_function(OUT, timeout=6500)
    page.fill("[name=read]", "151")
    page.locator(".choice", has_text="°C").click()
    page.click("#main-place .pad")
    expect(page.locator("#huge-text")).to_have_text("0:20")
    expect(page.locator(STEP)).to_contain_text("Next burst")


def test_with_the_laptop_its_answer_counts(page: Page, server: StandIn) -> None:
    shown(page, server, state(reading()))
    server.state["ahead"] = {}
    page.keyboard.type("304")
    page.keyboard.press("Enter")
    page.wait_for_function(SENT)
    expect(page.locator(STEP)).not_to_contain_text("Next burst")
    page.wait_for_timeout(4500)
    expect(page.locator(STEP)).not_to_contain_text("Next burst")


def test_a_slow_laptop_is_asked_for_four_seconds(page: Page, server: StandIn) -> None:
    shown(page, server, state(reading()))
    server.silent = True
    page.keyboard.type("240")
    page.keyboard.press("Enter")
    expect(page.locator("#wait")).to_have_text("Asking the laptop …")
    expect(page.locator("#huge-text")).to_have_text("0:50", timeout=5500)


def test_an_older_state_never_covers_a_newer(page: Page, server: StandIn) -> None:
    shown(page, server, state(pour()))
    newest = server.state["newest"]
    server.state = {**state(weigh()), "newest": newest - 3}
    page.evaluate("dispatchEvent(new Event('pageshow'))")
    page.keyboard.press("Space")
    page.wait_for_timeout(1500)
    assert page.evaluate("window.bench.state().newest") >= newest
    expect(page.locator(STEP)).to_contain_text("Pour")


@pytest.mark.parametrize("status", [401, 403])
def test_an_unpaired_phone_keeps_its_taps_and_says_what_to_do(
    page: Page, server: StandIn, status: int
) -> None:
    server.status = status
    page.keyboard.press("Space")
    expect(page.locator("#link-words")).to_contain_text("pair it again at the laptop")
    assert page.evaluate("window.bench.link()") == "unpaired"
    assert len(page.evaluate("window.bench.outbox()")) == 1
    server.status = 200
    page.click("#more")
    page.click("text=Send again")
    page.wait_for_function(SENT)
    assert len(server.taps) == 1


def test_taps_the_laptop_refuses_as_a_whole_are_kept_and_can_be_thrown_away(
    page: Page, server: StandIn
) -> None:
    server.status = 409
    page.keyboard.press("Space")
    expect(page.locator("#link-words")).to_contain_text("refused the taps")
    page.click("#more")
    expect(page.locator("#more-kept")).to_contain_text("not this phone")
    page.click("text=Throw these taps away", delay=1200)
    page.wait_for_function(SENT)
    page.keyboard.press("Escape")
    expect(page.locator(STEP)).to_contain_text("Weigh")


def test_words_of_a_tap_that_did_not_fit_are_shown(page: Page, server: StandIn) -> None:
    server.stray = "“In” came after the cup was weighed."
    page.keyboard.press("Space")
    expect(page.locator("#strip")).to_contain_text("came after the cup was weighed")
    expect(page.locator(STEP)).to_contain_text("Weigh")
    page.click("#strip")
    expect(page.locator("#more-told")).to_contain_text("came after the cup was weighed")
    page.keyboard.press("Escape")
    expect(page.locator("#strip")).to_be_hidden()
