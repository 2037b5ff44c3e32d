"""What a test sees of the bench page: boxes on the screen, colors, barriers."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, Page

from browser.bench_stand_in import PLACE, StandIn
from browser.watch import Watch

SIZES = ((390, 844), (360, 640), (844, 390), (1440, 900))
LIGHTS = ("auto", "sunlight", "dark")
AXE = "axe_playwright_python"
STEP = "#step"
LINKED = "() => window.bench.link() === 'linked'"
OUT = "() => window.bench.link() === 'out'"
SENT = "() => window.bench.outbox().length === 0"
LISTENS_AGAIN_MS = 750
PADS = "#main-place .pad, #side-place .pad, .entries:not(.is-many) .add"
BOXES = """its => its.filter(e => e.checkVisibility()).map(e => {
  const r = e.getBoundingClientRect();
  return {what: e.id || e.textContent.trim(), x: r.left, y: r.top, right: r.right, bottom: r.bottom,
          height: r.height, width: r.width};
})"""
COLORS = """() => {
  const canvas = new OffscreenCanvas(1, 1).getContext('2d', {willReadFrequently: true});
  const rgba = text => {
    canvas.clearRect(0, 0, 1, 1); canvas.fillStyle = text; canvas.fillRect(0, 0, 1, 1);
    return [...canvas.getImageData(0, 0, 1, 1).data];
  };
  const behind = node => {
    for (let e = node; e; e = e.parentElement) {
      const found = rgba(getComputedStyle(e).backgroundColor);
      if (found[3] === 255) return found;
    }
    return [255, 255, 255, 255];
  };
  const found = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const e = walk.currentNode.parentElement;
    if (!walk.currentNode.data.trim() || !e.checkVisibility()) continue;
    if (e.closest('.unseen, script, template')) continue;
    const style = getComputedStyle(e);
    const color = rgba(e.closest('svg') ? style.fill : style.color);
    found.push({what: walk.currentNode.data.trim(), color, behind: behind(e)});
  }
  return found;
}"""


@contextmanager
def bench_page(
    browser: Browser, server: StandIn, size: tuple[int, int] = (390, 844), **more: Any
) -> Iterator[Page]:
    """The bench page of a stand-in, watched; `faults` false where an outage makes noise."""
    light, faults = more.pop("light", "auto"), more.pop("faults", True)
    more.setdefault("service_workers", "block")
    width, height = size
    context = browser.new_context(
        base_url=server.address, viewport={"width": width, "height": height}, **more
    )
    context.add_init_script(f"localStorage.setItem('light', '{light}')")
    watch = Watch(server.address)
    page = watch.over(context.new_page())
    try:
        page.goto(PLACE)
        page.wait_for_function("() => window.bench?.link() === 'linked'")
        yield page
    finally:
        context.close()
    assert not (faults and watch.wrongs), watch.wrongs


def shown(page: Page, server: StandIn, state: dict[str, Any]) -> None:
    """Wait until the page shows a State of the server, and listens to presses again."""
    server.show(state)
    newest = server.state["newest"]
    page.wait_for_function("newest => window.bench.state().newest === newest", arg=newest)
    # A finger just lifted may put the drawing off by a tick, and the page is deaf for a while then.
    page.wait_for_timeout(950)


def kinds(server: StandIn) -> list[str]:
    """The kinds of the taps that came, in order."""
    return [tap["kind"] for tap in server.taps]


def arrived(page: Page, server: StandIn, number: int) -> None:
    """Wait until so many taps are at the server."""
    for _ in range(100):
        if len(server.taps) >= number:
            break
        page.wait_for_timeout(30)
    assert len(server.taps) == number, kinds(server)


def boxes(page: Page, selector: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = page.locator(selector).evaluate_all(BOXES)
    return found


def gap(a: dict[str, Any], b: dict[str, Any]) -> float:
    """The free space between two boxes, in CSS pixels; negative where they overlap."""
    across = max(a["x"], b["x"]) - min(a["right"], b["right"])
    down = max(a["y"], b["y"]) - min(a["bottom"], b["bottom"])
    return float(max(across, down))


def narrowest_gap(found: list[dict[str, Any]]) -> float:
    return min((gap(a, b) for a, b in itertools.combinations(found, 2)), default=999.0)


def contrast(a: list[float], b: list[float]) -> float:
    """Source: W3C, Web Content Accessibility Guidelines 2.2, 2023, "contrast ratio"."""
    lighter, darker = sorted((_luminance(a), _luminance(b)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def _luminance(rgb: list[float]) -> float:
    """Source: W3C, Web Content Accessibility Guidelines 2.2, 2023, "relative luminance"."""
    red, green, blue = (
        c / 255 / 12.92 if c / 255 <= 0.04045 else ((c / 255 + 0.055) / 1.055) ** 2.4
        for c in rgb[:3]
    )
    return float(0.2126 * red + 0.7152 * green + 0.0722 * blue)


def barriers(page: Page) -> list[str]:
    """What the accessibility checker finds; it is run past the page's own content policy."""
    session = page.context.new_cdp_session(page)
    spec = find_spec(AXE)
    assert spec
    script = Path(str(spec.origin)).with_name("axe.min.js").read_text(encoding="utf-8")
    session.send("Runtime.evaluate", {"expression": script})
    expression = "axe.run().then(r => r.violations.map(v => v.id + ': ' + v.nodes[0].html))"
    told = session.send(
        "Runtime.evaluate",
        {"expression": expression, "awaitPromise": True, "returnByValue": True},
    )
    found: list[str] = told["result"]["value"]
    return found
