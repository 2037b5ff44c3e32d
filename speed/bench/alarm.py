"""How soon a laptop that hangs is noticed, and how far from its moment a clock rings."""

from __future__ import annotations

import time

from playwright.sync_api import Page

from browser.pour_hand import LINKED
from browser.pour_kitchen import ONE_CUP
from pourwright.bench import tap_kind as kind
from pourwright.bench.clock import seconds_between
from pourwright.bench.hand import What
from speed.bench.place import Place, opened, phone, place

TRIALS = 5
RING_AFTER_S = 6
ZERO = "1970-01-01T00:00:00Z"
RANG = "due => window.bench.rang.some(moment => Math.abs(moment - due) < 4000)"


def silences() -> list[float]:
    """Seconds from a server that hangs, its connections open, until the page says so."""
    with place(ONE_CUP) as it, phone() as page:
        opened(page, it)
        found = []
        for trial in range(TRIALS):
            page.wait_for_timeout(1000 + 210 * trial)
            it.server.hold()
            begin = time.monotonic()
            page.wait_for_function("() => window.bench.link() === 'out'", timeout=20_000)
            found.append(time.monotonic() - begin)
            it.server.let_go()
            page.wait_for_function(LINKED, timeout=20_000)
        return found


def rings() -> list[float]:
    """Seconds by which the alarm at the end of a burst came late, by the laptop's true clock."""
    with place(ONE_CUP) as it, phone() as page:
        it.player.to(What.COOK)
        opened(page, it)
        page.locator("#more").tap()
        page.keyboard.press("Escape")
        return [_ring(page, it) for _ in range(TRIALS)]


def _ring(page: Page, it: Place) -> float:
    it.player.to(What.COOK)
    it.player.tap(kind.BEGUN, cup=1, for_s=float(RING_AFTER_S))
    began_s = seconds_between(ZERO, it.player.events(kind.BEGUN)[-1].at)
    due_ms = 1e3 * (began_s + RING_AFTER_S - it.server.ahead_s)
    page.wait_for_function(RANG, arg=due_ms, timeout=15_000)
    rang_ms = page.evaluate("window.bench.rang.at(-1)")
    it.player.step()
    return float(rang_ms - due_ms) / 1e3
