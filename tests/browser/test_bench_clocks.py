"""Clocks and alarms of the bench page: on time, once, with a wrong clock, for hours."""

from __future__ import annotations

import re
from datetime import datetime
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.bench_sight import LINKED, SENT, bench_page, shown
from browser.bench_stand_in import StandIn
from browser.bench_states import burst, clock, iso, pour, state, weigh


@pytest.fixture
def page(faulty_page: Page) -> Page:
    return faulty_page


def wrong_clock(off_ms: int) -> str:
    """A script by which the phone's clock is off."""
    return f"""
      const real = Date.now.bind(Date); const Old = Date;
      window.Date = class extends Old {{
        constructor(...given) {{ given.length ? super(...given) : super(real() + {off_ms}); }}
        static now() {{ return real() + {off_ms}; }}
      }};
    """


def test_the_laptop_is_asked_again_while_the_cup_cools(page: Page, server: StandIn) -> None:
    shown(page, server, state(weigh(), look_again_s=1))
    server.state = {**server.state, "title": "Renamed"}
    expect(page.locator("#batch")).to_have_text("Renamed", timeout=4000)


@pytest.mark.parametrize("off_ms", [-7_200_000, 7_200_000])
def test_a_phone_two_hours_off_counts_right(browser: Browser, server: StandIn, off_ms: int) -> None:
    with bench_page(browser, server) as page:
        page.add_init_script(wrong_clock(off_ms))
        page.evaluate("localStorage.clear()")
        server.show(state(burst(60), clocks=[clock(2, 95)]))
        page.reload()
        page.wait_for_function(LINKED)
        page.wait_for_timeout(1500)
        minutes, seconds = page.locator("#huge-text").inner_text().split(":")
        assert 50 <= int(minutes) * 60 + int(seconds) <= 60
        minutes, seconds = page.locator(".chip-time").inner_text().split(":")
        assert 85 <= int(minutes) * 60 + int(seconds) <= 95
        page.click("#more")
        expect(page.locator("#how-it-is")).to_contain_text("off by 7200 s")


@pytest.mark.parametrize("off_ms", [-7_200_000, 7_200_000])
def test_a_tap_carries_its_time_by_the_laptop_and_by_the_phone(
    browser: Browser, server: StandIn, off_ms: int
) -> None:
    with bench_page(browser, server) as page:
        page.add_init_script(wrong_clock(off_ms))
        page.evaluate("localStorage.clear()")
        page.reload()
        page.wait_for_function(LINKED)
        began = datetime.fromisoformat(iso())
        page.keyboard.press("Space")
        page.wait_for_function(SENT)
        (tap,) = server.taps
        assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z", tap["laptop_at"])
        late_s = (datetime.fromisoformat(tap["laptop_at"]) - began).total_seconds()
        assert -0.2 < late_s < 1
        off_s = (
            datetime.fromisoformat(tap["at"]) - datetime.fromisoformat(tap["laptop_at"])
        ).total_seconds()
        assert off_s == pytest.approx(off_ms / 1000, abs=1)


def test_a_phone_clock_that_jumps_on_the_way_is_noticed(browser: Browser, server: StandIn) -> None:
    script = """
      const real = Date.now.bind(Date); window.off = 0;
      Date.now = () => real() + window.off;
    """
    server.show(state(weigh(), clocks=[clock(2, 95)]))
    with bench_page(browser, server) as page:
        page.add_init_script(script)
        page.reload()
        for off_s in (1800, -1800):
            page.evaluate("off => { window.off = off; }", off_s * 1000)
            page.wait_for_timeout(2500)
            minutes, seconds = page.locator(".chip-time").inner_text().split(":")
            assert 80 <= int(minutes) * 60 + int(seconds) <= 95


@pytest.mark.parametrize("what", ["mold", "phase"])
def test_an_alarm_rings_within_three_tenths_of_its_deadline(
    page: Page, server: StandIn, what: str
) -> None:
    page.click("#more")
    page.keyboard.press("Escape")
    end = clock(1, 3)
    shows = state(weigh(), clocks=[end]) if what == "mold" else state(burst(3, 60))
    due = page.evaluate("iso => Date.parse(iso)", end["until"])
    shown(page, server, shows)
    page.wait_for_function("() => window.bench.rang.length > 0", timeout=6000)
    (rang,) = page.evaluate("window.bench.rang")
    assert abs(rang - due) < 300
    page.wait_for_timeout(1500)
    assert len(page.evaluate("window.bench.rang")) == 1
    wanted = "Open it" if what == "mold" else "Stir and rest"
    expect(page.locator("#alarm")).to_contain_text(wanted)


def test_an_alarm_sounds_on_the_audio_clock_while_the_page_is_busy(
    page: Page, server: StandIn
) -> None:
    page.click("#more")
    page.keyboard.press("Escape")
    page.evaluate(
        """() => {
          window.heard = [];
          const old = AudioNode.prototype.connect;
          AudioNode.prototype.connect = function (to, ...rest) {
            if (to === this.context.destination && this instanceof GainNode) {
              const look = new AnalyserNode(this.context, {fftSize: 2048});
              old.call(this, look);
              const data = new Float32Array(2048);
              const timer = setInterval(() => {
                look.getFloatTimeDomainData(data);
                const peak = Math.max(...data.map(Math.abs));
                if (peak > .2) window.heard.push([Date.now(), peak]);
                if (window.heard.length > 400) clearInterval(timer);
              }, 20);
            }
            return old.call(this, to, ...rest);
          };
        }"""
    )
    end = clock(1, 3)
    shown(page, server, state(weigh(), clocks=[end]))
    page.wait_for_function("() => window.heard.length > 5", timeout=7000)
    due = page.evaluate("iso => Date.parse(iso)", end["until"])
    first, peak = page.evaluate("window.heard[0]")
    assert abs(first - due) < 300
    assert peak > 0.3
    page.keyboard.press("Shift")
    page.wait_for_timeout(300)
    count = page.evaluate("window.heard.length")
    page.wait_for_timeout(1500)
    assert page.evaluate("window.heard.length") == count


def test_a_moved_deadline_rings_once_at_its_new_time(page: Page, server: StandIn) -> None:
    page.click("#more")
    page.keyboard.press("Escape")
    shown(page, server, state(weigh(), clocks=[clock(1, 3)]))
    later = clock(1, 4)
    shown(page, server, state(weigh(), clocks=[later]))
    page.wait_for_function("() => window.bench.rang.length > 0", timeout=7000)
    page.wait_for_timeout(1000)
    (rang,) = page.evaluate("window.bench.rang")
    assert abs(rang - page.evaluate("iso => Date.parse(iso)", later["until"])) < 300


def test_a_deadline_corrected_just_after_it_rang_rings_no_second_time(
    page: Page, server: StandIn
) -> None:
    page.click("#more")
    page.keyboard.press("Escape")
    end = clock(1, 2)
    server.show(state(weigh(), clocks=[end]))
    page.wait_for_function("() => window.bench.rang.length > 0", timeout=6000)
    shown(page, server, state(weigh(), clocks=[clock(1, 0.5)]))
    page.wait_for_timeout(1000)
    assert len(page.evaluate("window.bench.rang")) == 1


def test_sound_that_waits_for_a_press_says_so(page: Page, server: StandIn) -> None:
    shown(page, server, state(weigh(), clocks=[clock(1, 60)]))
    expect(page.locator("#strip")).to_contain_text("Sound is off until you press")
    page.click("#strip")
    expect(page.locator("#strip")).to_be_hidden()
    page.click("#more")
    expect(page.locator("#how-it-is")).to_contain_text("Sound on.")
    page.click("#sound")
    expect(page.locator("#how-it-is")).to_contain_text("Sound off")


@pytest.mark.parametrize("motion", ["reduce", "no-preference"])
def test_a_ringing_step_flashes_slowly_or_not_at_all_and_never_fades(
    browser: Browser, server: StandIn, motion: Any
) -> None:
    """Under three flashes a second: WCAG 2.2 success criterion 2.3.1."""
    with bench_page(browser, server, reduced_motion=motion) as page:
        server.show(state(burst(1.5, 60)))
        page.wait_for_selector(".is-ringing", timeout=5000)
        style = """e => {
          const s = getComputedStyle(e);
          return [s.animationName, s.animationDuration, s.opacity];
        }"""
        name, lasts, opacity = page.locator(".huge-line").evaluate(style)
        assert opacity == "1"
        if motion == "reduce":
            assert name == "none"
        else:
            assert float(lasts.removesuffix("s")) >= 2 / 3


def test_hours_of_beats_and_states_leave_nothing_behind(page: Page, server: StandIn) -> None:
    page.click("#more")
    page.keyboard.press("Escape")
    session = page.context.new_cdp_session(page)
    session.send("Performance.enable")

    def nodes() -> int:
        session.send("HeapProfiler.collectGarbage")
        told = session.send("Performance.getMetrics")["metrics"]
        return int(next(it["value"] for it in told if it["name"] == "Nodes"))

    def states(number: int) -> None:
        for i in range(number):
            server.show(state(pour(i % 2 + 1), clocks=[clock(1, 100 + i)]))
            newest = server.state["newest"]
            page.evaluate("dispatchEvent(new PageTransitionEvent('pageshow', {persisted: true}))")
            page.wait_for_function("n => window.bench.state().newest === n", arg=newest)

    states(10)
    before = nodes()
    states(60)
    assert nodes() < before + 100
