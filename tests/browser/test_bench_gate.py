"""Which presses count on the bench page, and what it says of those that do not."""

from __future__ import annotations

from typing import Any

import pytest
from playwright.sync_api import Page, expect

from browser.bench_sight import SENT, STEP, boxes, shown
from browser.bench_stand_in import StandIn
from browser.bench_states import drops, main, pad, phase, pour, screen, state

BRIEF = "#brief"
# When words come and go there, by the page's own clock.
WATCHED = """() => {
  const it = document.getElementById('brief');
  window.briefly = [];
  new MutationObserver(() => window.briefly.push([it.textContent, performance.now()]))
    .observe(it, {childList: true});
}"""
# Two presses of a switch a fifth of a second apart, however busy the machine is.
TWICE = """() => {
  const press = () => document.body.dispatchEvent(
    new KeyboardEvent('keydown', {key: ' ', bubbles: true, cancelable: true}));
  press();
  const end = performance.now() + 200;
  while (performance.now() < end);
  press();
}"""
# A foot on a switch, in a hurry.
RHYTHM_MS = 1200


def kinds(page: Page, server: StandIn) -> list[str]:
    """What was pressed so far, once all of it is at the server."""
    page.wait_for_function(SENT)
    return [tap["kind"] for tap in server.taps]


def beside(shows: dict[str, Any], label: str) -> dict[str, Any]:
    """The same step with another pad beside its main one."""
    (only,) = shows["phases"]
    pads = [*(it for it in only["pads"] if it["main"]), pad(label, "other", next="wait")]
    return {**shows, "phases": [{**only, "pads": pads}]}


def show_at_once(page: Page, server: StandIn, shows: dict[str, Any]) -> None:
    """A State of another phone's making, drawn this moment."""
    server.show({**server.state, "screen": shows})
    newest = server.state["newest"]
    page.wait_for_function("newest => window.bench.state().newest === newest", arg=newest)


@pytest.mark.parametrize("press", ["finger", "switch"])
def test_a_press_too_soon_is_said_for_two_seconds_and_moves_nothing(
    page: Page, server: StandIn, press: str
) -> None:
    show_at_once(page, server, pour())
    before = boxes(page, "#main-place .pad")
    page.evaluate(WATCHED)
    if press == "finger":
        page.click("#main-place .pad")
    else:
        page.keyboard.press("Space")
    expect(page.locator(BRIEF)).to_have_text("Too soon: press again")
    assert page.locator(BRIEF).get_attribute("role") == "alert"
    assert boxes(page, "#main-place .pad") == before
    expect(page.locator(BRIEF)).to_have_text("")
    (words, came), (none, went) = page.evaluate("window.briefly")
    assert (words, none) == ("Too soon: press again", "")
    assert 1950 < went - came < 4000
    assert kinds(page, server) == []
    page.keyboard.press("Space")
    expect(page.locator(STEP)).to_contain_text("Mold 2")


def test_a_second_press_is_not_counted_and_never_asks_for_a_third(
    page: Page, server: StandIn
) -> None:
    page.evaluate(TWICE)
    expect(page.locator(BRIEF)).to_have_text("Too soon: only the first press counts")
    assert kinds(page, server) == ["part_in"]


def test_a_bounce_of_the_switch_says_nothing(page: Page, server: StandIn) -> None:
    page.evaluate(
        """() => {
          for (let i = 0; i < 3; i += 1) document.querySelector('#main-place .pad').click();
        }"""
    )
    page.wait_for_timeout(200)
    expect(page.locator(BRIEF)).to_have_text("", timeout=1)
    assert kinds(page, server) == ["part_in"]


def test_a_foot_in_rhythm_is_never_deafened_by_the_answer_to_its_own_press(
    page: Page, server: StandIn
) -> None:
    page.keyboard.press("Space")
    expect(page.locator(STEP)).to_contain_text("Tint")
    page.wait_for_timeout(RHYTHM_MS - 500)
    show_at_once(page, server, beside(drops(), "As the laptop has it"))
    expect(page.locator("#side-place")).to_have_text("As the laptop has it")
    page.keyboard.press("Space")
    expect(page.locator(STEP)).to_contain_text("Heat")
    expect(page.locator(BRIEF)).to_have_text("", timeout=1)
    assert kinds(page, server) == ["part_in", "tinted"]


def test_a_side_pad_that_came_under_the_finger_is_not_pressed_yet(
    page: Page, server: StandIn
) -> None:
    shown(page, server, state(drops()))
    show_at_once(page, server, beside(drops(), "Something new"))
    page.click("#side-place .pad")
    expect(page.locator(BRIEF)).to_have_text("Too soon: press again")
    assert kinds(page, server) == []


def test_a_main_pad_that_says_something_else_hears_no_press_yet(
    page: Page, server: StandIn
) -> None:
    shown(page, server, state(drops()))
    other = {**drops(), "phases": [phase("Marsh green", main("Pour it out", "other"))]}
    show_at_once(page, server, other)
    page.keyboard.press("Space")
    expect(page.locator(BRIEF)).to_have_text("Too soon: press again")
    assert kinds(page, server) == []


def test_an_answer_that_was_waited_for_hears_the_next_press(page: Page, server: StandIn) -> None:
    def lone(leads: str | None) -> dict[str, Any]:
        return screen("lone", "Pour", phase("", main("Warm-up shot", "warm_up", next=leads)))

    shown(page, server, state(lone(None)))
    server.state = {**server.state, "screen": lone("drops")}
    page.keyboard.press("Space")
    page.wait_for_function("() => document.getElementById('step').textContent.includes('Tint')")
    page.wait_for_timeout(400)
    page.keyboard.press("Space")
    expect(page.locator(STEP)).to_contain_text("Heat")
    assert kinds(page, server) == ["warm_up", "tinted"]
