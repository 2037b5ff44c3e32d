"""What a press does on the bench page: one tap each, undone, held, or kept from harm."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.bench_sight import LISTENS_AGAIN_MS, SENT, STEP, arrived, bench_page, kinds, shown
from browser.bench_stand_in import StandIn
from browser.bench_states import (
    burst,
    drops,
    four_clocks,
    iso,
    main,
    pad,
    phase,
    pour,
    screen,
    state,
    wait,
)


@pytest.mark.parametrize("key", ["Space", "Enter"])
def test_a_key_alone_leads_through_the_pour(page: Page, server: StandIn, key: str) -> None:
    for step in ("Tint", "Heat"):
        page.keyboard.press(key)
        expect(page.locator(STEP)).to_contain_text(step)
        page.wait_for_timeout(400)
    arrived(page, server, 2)
    assert kinds(server) == ["part_in", "tinted"]


def test_a_held_key_presses_once(page: Page, server: StandIn) -> None:
    for _ in range(12):
        page.keyboard.down("Space")
        page.wait_for_timeout(60)
    page.keyboard.up("Space")
    page.wait_for_timeout(500)
    assert kinds(server) == ["part_in"]


def test_a_bouncing_switch_presses_once(page: Page, server: StandIn) -> None:
    for _ in range(3):
        page.keyboard.press("Enter")
    page.wait_for_timeout(500)
    assert kinds(server) == ["part_in"]


def test_after_a_finger_the_switch_means_the_main_pad(page: Page, server: StandIn) -> None:
    shown(page, server, state(drops()))
    page.click(".add >> text='+10'")
    page.keyboard.press("Space")
    arrived(page, server, 1)
    assert server.taps[0]["body"] == {"drops": 10}
    page.click("#more")
    page.click("#more-over [data-close]")
    page.keyboard.press("Space")
    expect(page.locator("#more-over")).to_be_hidden()


def test_tab_reaches_all_that_can_be_pressed(page: Page, server: StandIn) -> None:
    shown(page, server, state(drops(), clocks=four_clocks()))
    met = set()
    for _ in range(20):
        page.keyboard.press("Tab")
        met.add(page.evaluate("document.activeElement.id || document.activeElement.textContent"))
    wanted = {"more", "entry-drops", "+1", "+10", "All in", "By the bottle's weight", "trouble"}
    assert wanted <= met
    page.focus("#trouble")
    page.keyboard.press("Enter")
    expect(page.locator("#trouble-over")).to_be_visible()
    page.keyboard.press("Escape")
    expect(page.locator("#trouble-over")).to_be_hidden()
    assert server.taps == []


def test_a_screen_that_came_by_itself_hears_no_press_yet(page: Page, server: StandIn) -> None:
    server.show(state(pour()))
    page.wait_for_function("() => document.getElementById('step').textContent.includes('Pour')")
    page.click("#main-place .pad")
    page.keyboard.press("Space")
    page.wait_for_timeout(LISTENS_AGAIN_MS)
    assert page.evaluate("window.bench.outbox().length") == 0
    assert server.taps == []
    page.keyboard.press("Space")
    arrived(page, server, 1)


def test_phases_follow_by_the_clock_and_a_pad_under_a_finger_stays(
    page: Page, server: StandIn
) -> None:
    shown(page, server, state(burst(5, 1.5)))
    expect(page.locator(STEP)).to_contain_text("Oven on")
    box = page.locator("#side-place .pad").bounding_box()
    assert box
    page.mouse.move(box["x"] + 20, box["y"] + 20)
    page.mouse.down()
    page.wait_for_timeout(4300)
    expect(page.locator(STEP)).to_contain_text("Oven on")
    page.mouse.up()
    expect(page.locator(STEP)).to_contain_text("Stir and rest")
    expect(page.locator(STEP)).to_contain_text("Read", timeout=4000)


def test_undo_is_a_plain_press_for_ten_seconds_then_a_hold(
    browser: Browser, server: StandIn
) -> None:
    with bench_page(browser, server) as page:
        page.click("text=Without a scale")
        expect(page.locator(".undo")).to_have_text("Undo: Without a scale")
        page.wait_for_timeout(400)
        page.click(".undo")
        arrived(page, server, 2)
        first, second = server.taps
        assert second["kind"] == "taken_back"
        assert second["body"] == {"event": first["id"]}
        expect(page.locator(STEP)).to_contain_text("Weigh")
        old = {"id": "a" * 32, "words": "Mold 1 full", "at": iso(-8.5)}
        shown(page, server, state(pour(2), undo=old))
        expect(page.locator(".undo")).to_have_text("Hold to undo: Mold 1 full", timeout=4000)
        page.click(".undo")
        expect(page.locator("#refused")).to_contain_text("hold it for one second")
        assert len(server.taps) == 2
        box = page.locator(".undo").bounding_box()
        assert box
        page.mouse.move(box["x"] + 5, box["y"] + 5)
        page.mouse.down()
        page.wait_for_timeout(1200)
        page.mouse.up()
        arrived(page, server, 3)
        assert server.taps[2]["body"] == {"event": "a" * 32}


def test_a_pad_to_hold_needs_its_second_by_finger_and_key(page: Page, server: StandIn) -> None:
    hold = screen("last", "Pour", phase("", main("Cup is empty", "empty", hold=True)))
    shown(page, server, state(hold))
    page.click("#main-place .pad", delay=400)
    page.keyboard.press("Space", delay=400)
    page.wait_for_timeout(1200)
    assert server.taps == []
    page.keyboard.down("Space")
    page.wait_for_timeout(1200)
    page.keyboard.up("Space")
    arrived(page, server, 1)


def test_clocks_start_and_end_with_their_pads(page: Page, server: StandIn) -> None:
    shown(page, server, state(pour()))
    server.silent = True
    page.click("text=Mold 1 full")
    expect(page.locator(".chip-time")).to_have_text(re.compile(r"4:[23]\d"))
    expect(page.locator(STEP)).to_contain_text("Mold 2")
    server.silent = False
    page.wait_for_function(SENT)
    shown(page, server, state(wait(), clocks=four_clocks()))
    server.silent = True
    page.click("text=Opened")
    expect(page.locator(".chip")).to_have_count(3)
    server.silent = False


def test_a_pad_without_a_next_step_waits_for_the_laptop(page: Page, server: StandIn) -> None:
    lone = screen("lone", "Pour", phase("", main("Warm-up shot", "warm_up"), pad("Rest", "rest")))
    shown(page, server, state(lone))
    server.silent = True
    page.click("#main-place .pad")
    expect(page.locator("#wait")).to_have_text("Sent. Waiting for the laptop")
    page.wait_for_timeout(500)
    page.click("#side-place .pad")
    assert page.evaluate("window.bench.outbox().length") == 1
    server.silent = False
