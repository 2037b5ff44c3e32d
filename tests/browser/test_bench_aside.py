"""Beside the step: trouble, the voice, ways out, and a browser that lacks something."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.bench_sight import STEP, arrived, bench_page, boxes, kinds, shown
from browser.bench_stand_in import StandIn
from browser.bench_states import (
    SCREENS,
    done,
    pad,
    phase,
    screen,
    state,
    weigh,
    which_unit,
)


def test_trouble_is_stamped_at_once_and_says_what_to_do(page: Page, server: StandIn) -> None:
    server.show(state(which_unit()))
    page.wait_for_function("() => document.getElementById('step').textContent.includes('unit')")
    page.click("#trouble")
    pads = boxes(page, ".trouble-pads .pad")
    assert len(pads) == 4
    assert min(box["height"] for box in pads) >= 96
    page.keyboard.press("Space")
    assert server.taps == []
    page.click("text=Spilled")
    arrived(page, server, 1)
    assert server.taps[0]["body"] == {"what": "spilled"}
    expect(page.locator(".do-first li").first).to_contain_text("Keep away until it sets")
    page.wait_for_timeout(400)
    page.click("text=Go on")
    expect(page.locator("#trouble-over")).to_be_hidden()
    expect(page.locator(STEP)).to_contain_text("Which unit?")


def test_trouble_that_halts_the_pour_leads_to_its_screen(page: Page, server: StandIn) -> None:
    page.click("#trouble")
    page.click("text=Too hot or smoking")
    arrived(page, server, 1)
    expect(page.locator(".do-first li").first).to_contain_text("Door stays shut")
    page.wait_for_timeout(400)
    page.click("#trouble-over .pad.is-main")
    expect(page.locator(STEP)).to_contain_text("Halted")
    page.wait_for_function("() => window.bench.state().screen.key === 'halted'")
    page.keyboard.press("Space")
    expect(page.locator(STEP)).to_contain_text("Next burst")


def test_a_pad_with_an_address_goes_there(page: Page, server: StandIn) -> None:
    shown(page, server, state(done()))
    page.keyboard.press("Space")
    page.wait_for_url("**/book")
    assert server.taps == []


def test_a_pour_that_is_over_leads_out(page: Page, server: StandIn) -> None:
    shown(page, server, state(screen("end", "Done", phase("")), over=True))
    page.click("text=To the lot")
    page.wait_for_url("**/book")


@pytest.mark.parametrize(
    ("label", "kind"), [("Give cup 1 up", "given_up"), ("Put the", "put_away")]
)
def test_what_is_rarely_done_is_held_in_more(
    page: Page, server: StandIn, label: str, kind: str
) -> None:
    page.click("#more")
    expect(page.locator("#more-held h3")).to_have_text("Hold to")
    expect(page.locator("#more-held .pad")).to_have_count(2)
    held = page.locator("#more-held .pad", has_text=label)
    held.click(delay=300)
    page.wait_for_timeout(1200)
    assert server.taps == []
    held.click(delay=1200)
    arrived(page, server, 1)
    assert kinds(server) == [kind]
    expect(page.locator("#more-over")).to_be_hidden()


def test_no_heading_stands_over_nothing_to_hold(page: Page, server: StandIn) -> None:
    server.show(state(weigh(), held=[]))
    page.wait_for_function("() => window.bench.state().held.length === 0")
    page.click("#more")
    expect(page.locator("#more-held")).to_have_text("")


@pytest.mark.parametrize("make", SCREENS.values(), ids=SCREENS)
def test_the_voice_says_each_step_once(
    browser: Browser, server: StandIn, make: Callable[[], dict[str, Any]]
) -> None:
    script = """
      localStorage.setItem('speak', 'true');
      window.said = [];
      speechSynthesis.speak = one => window.said.push(one.text);
    """
    shows = make()
    with bench_page(browser, server) as page:
        page.add_init_script(script)
        page.reload()
        server.show(state(shows))
        wanted = shows["phases"][0]["say"]
        page.wait_for_function("wanted => window.said.at(-1) === wanted", arg=wanted)
        first, *rest = shows["phases"]
        renamed = {**first, "pads": [pad("Renamed", "other")]}
        server.show(state({**shows, "phases": [renamed, *rest]}))
        expect(page.locator("#side-place")).to_contain_text("Renamed")
        assert page.evaluate("window.said").count(wanted) == 1


def test_the_page_works_without_voice_vibration_or_wake_lock(
    browser: Browser, server: StandIn
) -> None:
    script = """
      delete window.speechSynthesis; delete Navigator.prototype.vibrate;
      delete Navigator.prototype.wakeLock; delete window.AudioContext;
    """
    with bench_page(browser, server) as page:
        page.add_init_script(script)
        page.reload()
        page.keyboard.press("Space")
        expect(page.locator(STEP)).to_contain_text("Tint")
        page.click("#more")
        expect(page.locator("#how-it-is")).to_contain_text("This device has no voice")
        expect(page.locator("#how-it-is")).to_contain_text("cannot keep the screen on: set the")
        expect(page.locator("#how-it-is")).to_contain_text("no sound")
