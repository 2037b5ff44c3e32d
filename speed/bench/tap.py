"""From a press in the browser to the answer that it is kept; beside it a form with its redirect."""

from __future__ import annotations

import dataclasses

from playwright.sync_api import Page

from browser.pour_kitchen import ONE_CUP
from pourwright.bench.hand import What
from speed.bench.place import Place, opened, phone, place

TAPS, FORMS = 200, 50
SETTLES_MS = 420
HEARS = """
  const asked = window.fetch;
  window.fetch = async (...given) => {
    const answer = await asked(...given);
    if (String(given[0]).endsWith('/taps') && answer.ok) window.stored = performance.now();
    return answer;
  };
"""
PRESS = """() => new Promise((done, failed) => {
  const pad = [...document.querySelectorAll('.pad')].find(it => it.textContent.trim() === '1 drop');
  const start = performance.now();
  window.stored = 0;
  pad.click();
  const look = setInterval(() => {
    if (performance.now() - start > 8000) { clearInterval(look); failed('no answer'); }
    if (!window.stored || window.bench.outbox().length) return;
    clearInterval(look);
    done((window.stored - start) / 1000);
  }, 5);
})"""
SEND = """() => {
  sessionStorage.setItem('sent', performance.timeOrigin + performance.now());
  document.querySelector('[value=save]').click();
}"""
SHOWN = """() => {
  const loaded = performance.getEntriesByType('navigation')[0].domContentLoadedEventEnd;
  return (performance.timeOrigin + loaded - Number(sessionStorage.getItem('sent'))) / 1000;
}"""


def taps_and_forms() -> tuple[list[float], list[float]]:
    """Seconds from press to kept, and from sending the form of the lot to the page after it."""
    with place(dataclasses.replace(ONE_CUP, count=12)) as it, phone() as page:
        page.add_init_script(HEARS)
        it.player.to(What.TINT)
        opened(page, it)
        page.wait_for_timeout(1000)
        taps = [_tap(page) for _ in range(TAPS)]
        return taps, _forms(page, it)


def _tap(page: Page) -> float:
    seconds = float(page.evaluate(PRESS))
    page.wait_for_timeout(SETTLES_MS)
    return seconds


def _forms(page: Page, it: Place) -> list[float]:
    page.goto(f"{it.server.address}/lots/{it.sheet}")
    page.fill("[name=shots]", "2")
    page.fill("[name=good]", "12")
    return [_form(page) for _ in range(FORMS)]


def _form(page: Page) -> float:
    with page.expect_navigation(wait_until="load"):
        page.evaluate(SEND)
    return float(page.evaluate(SHOWN))
