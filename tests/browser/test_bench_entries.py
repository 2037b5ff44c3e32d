"""Numbers on the bench page: typed, counted by pads, refused in words, kept over a new State."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from browser.bench_sight import STEP, arrived, shown
from browser.bench_stand_in import StandIn
from browser.bench_states import (
    count,
    drops,
    entry,
    main,
    phase,
    reading,
    screen,
    state,
)


def test_a_press_is_one_tap_with_its_time_and_what_was_typed(page: Page, server: StandIn) -> None:
    page.fill("[name=weighed]", "119,5")
    page.click("#main-place .pad")
    expect(page.locator(STEP)).to_contain_text("Tint")
    arrived(page, server, 1)
    (tap,) = server.taps
    assert re.fullmatch("[0-9a-f]{32}", tap["id"])
    assert tap["kind"] == "part_in"
    assert tap["body"] == {"cup": 1, "part": "plastic", "weighed": 119.5}
    assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z", tap["at"])
    assert server.sent_at[0] >= tap["at"]
    page.wait_for_function("() => window.bench.outbox().length === 0")


def test_a_box_may_stay_empty_only_where_it_says_so(page: Page, server: StandIn) -> None:
    page.click("#main-place .pad")
    arrived(page, server, 1)
    assert server.taps[0]["body"] == {"cup": 1, "part": "plastic"}
    shown(page, server, state(reading()))
    page.click("#main-place .pad")
    expect(page.locator("#refused")).to_have_text("It reads: nothing entered")


@pytest.mark.parametrize(
    ("typed", "why"),
    [("29,x", "is no number"), ("1e3", "is no number"), ("501", "is outside −4 to 500 °F")],
)
def test_a_number_that_cannot_be_is_refused_in_words(
    page: Page, server: StandIn, typed: str, why: str
) -> None:
    shown(page, server, state(reading()))
    page.fill("[name=read]", typed)
    page.keyboard.press("Enter")
    expect(page.locator("#refused")).to_contain_text(f"{typed}")
    expect(page.locator("#refused")).to_contain_text(why)
    page.fill("[name=read]", "304")
    expect(page.locator("#refused")).to_be_hidden()
    page.wait_for_timeout(400)
    page.keyboard.press("Enter")
    arrived(page, server, 1)
    assert server.taps[0]["body"] == {"cup": 1, "round": 2, "read": 304, "read_unit": "f"}


def test_the_other_unit_is_sent_with_its_number(page: Page, server: StandIn) -> None:
    shown(page, server, state(reading()))
    page.fill("[name=read]", "151")
    page.locator(".choice", has_text="°C").click()
    page.click("#main-place .pad")
    arrived(page, server, 1)
    assert server.taps[0]["body"]["read"] == 151
    assert server.taps[0]["body"]["read_unit"] == "c"


def test_drops_are_counted_by_pads_and_sent_once(page: Page, server: StandIn) -> None:
    shown(page, server, state(drops()))
    for label in ("+10", "+10", "+1", "+1", "+1"):
        page.click(f".add >> text='{label}'")
    assert server.taps == []
    page.click("#main-place .pad")
    arrived(page, server, 1)
    assert server.taps[0]["body"] == {"drops": 23}


def test_each_count_goes_under_its_name(page: Page, server: StandIn) -> None:
    shown(page, server, state(count()))
    page.fill("[name=good]", "20")
    page.fill("[name=flash]", "2")
    page.click("#main-place .pad")
    arrived(page, server, 1)
    assert server.taps[0]["body"] == {"good": 20, "flash": 2}


def test_digits_typed_anywhere_go_into_the_box(page: Page, server: StandIn) -> None:
    shown(page, server, state(reading()))
    page.keyboard.type("304")
    assert page.locator("[name=read]").input_value() == "304"
    page.keyboard.press("Enter")
    arrived(page, server, 1)


def test_what_is_typed_outlives_a_state_of_the_same_screen(page: Page, server: StandIn) -> None:
    it = reading()
    shown(page, server, state(it))
    page.focus("[name=read]")
    page.keyboard.type("30")
    changed = {**it, "phases": [*it["phases"][:2], {**it["phases"][2], "words": ["Now 303 °F."]}]}
    shown(page, server, state(changed))
    page.keyboard.type("4")
    assert page.locator("[name=read]").input_value() == "304"
    expect(page.locator("#words")).to_contain_text("Expected 304")
    page.evaluate("document.activeElement.blur()")
    expect(page.locator("#words")).to_contain_text("Now 303")
    assert page.locator("[name=read]").input_value() == "304"


def test_another_screen_keeps_the_text_of_a_box_of_the_same_name(
    page: Page, server: StandIn
) -> None:
    shown(page, server, state(reading()))
    page.focus("[name=read]")
    page.keyboard.type("31")
    again = entry("read", "It reads now", unit="°F")
    other = screen(
        "again", "Read again", phase("", main("Read", "read", entry=True), entries=[again])
    )
    shown(page, server, state(other))
    expect(page.locator(STEP)).to_contain_text("Read again")
    page.keyboard.type("5")
    assert page.locator("[name=read]").input_value() == "315"
