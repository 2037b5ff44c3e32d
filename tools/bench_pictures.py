"""Take the pictures of the guided pour, docs/screenshots/bench-*.png, step by step.

    python tools/bench_pictures.py

A hand plays the invented two-tone pour on a phone of its own; at each step it stops for a picture.
Phone and laptop are set ahead together, so that minutes pass at once.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from playwright.sync_api import Browser, Page, sync_playwright  # noqa: E402

from browser.conftest import ARGUMENTS, browser_file  # noqa: E402  needs the path above
from browser.pour_hand import LINKED, Hand  # noqa: E402
from browser.pour_kitchen import TWO_CUPS, Kitchen, records  # noqa: E402
from browser.pour_server import PourServer, serving  # noqa: E402
from browser.pour_sight import Seen  # noqa: E402

OUT = ROOT / "docs" / "screenshots"
SEED, SHARP, TWO_CLOCKS = 7, 2, 2
PHONE, LYING, SMALL, LAPTOP = (390, 844), (844, 390), (360, 640), (1440, 900)
AHEAD = """ahead => {
  const plain = Date, now = Date.now.bind(Date);
  let ms = ahead;
  window.passes = seconds => { ms += seconds * 1000; };
  window.Date = class extends plain {
    constructor(...given) { given.length ? super(...given) : super(now() + ms); }
    static now() { return now() + ms; }
  };
}"""
# What a screen is called, by the words at its head or on its main pad, in the order they come.
STEPS = {
    "All on": "ready", "In": "weigh", "Oven started": "heat", "Oven on": "oven-on",
    "Stir and read": "stir-and-read", "Tint it": "hot-enough", "1 drop": "tint",
    "Looks right": "card", "Warmed": "warm-the-injector", "Mold full": "fill",
    "Mold 1 cools": "cool-and-open", "Good": "count", "Weigh five": "weigh-five",
    "Trim": "finish", "Hang them": "hang",
}  # fmt: skip
# The same step again in another size or light.
OTHERS = {
    "oven-on": ("lying", LYING, "auto"), "fill": ("small", SMALL, "auto"),
    "heat": ("sunlight", PHONE, "sunlight"), "cool-and-open": ("dark", PHONE, "dark"),
    "stir-and-read": ("laptop", LAPTOP, "auto"),
}  # fmt: skip


class Together(PourServer):
    """A server whose phones are set ahead with it."""

    pages: list[Page]

    def pass_s(self, seconds: float) -> None:
        """Time passes for laptop and phones."""
        super().pass_s(seconds)
        for page in self.pages:
            page.evaluate("seconds => window.passes(seconds)", seconds)


class Camera:
    """Takes each picture once, the first time its step is on the screen."""

    def __init__(self, browser: Browser, server: Together, address: str) -> None:
        self._browser, self._server, self._address = browser, server, address
        self.taken: set[str] = set()

    def sees(self, page: Page, seen: Seen) -> None:
        """A step is on the screen."""
        name = STEPS.get(seen.main) or STEPS.get(seen.name) or ""
        if seen.step == "Rewarm":
            name = "rewarm" if seen.main == "Oven started" else ""
        if name == "cool-and-open" and len(seen.chips) < TWO_CLOCKS:
            name = ""
        if name and name not in self.taken:
            self.shoot(page, name)
            if name in OTHERS:
                self._elsewhere(name, *OTHERS[name])

    def shoot(self, page: Page, name: str) -> None:
        """One picture, of what is in sight."""
        page.screenshot(path=OUT / f"bench-{name}.png")
        self.taken.add(name)

    def _elsewhere(self, name: str, how: str, size: tuple[int, int], light: str) -> None:
        with opened(self._browser, self._server, self._address, size, light) as page:
            page.wait_for_timeout(900)
            self.shoot(page, f"{name}-{how}")


@contextmanager
def opened(
    browser: Browser, server: Together, address: str, size: tuple[int, int], light: str
) -> Iterator[Page]:
    """The bench on a device of that size, in that light."""
    width, height = size
    touch = size != LAPTOP
    context = browser.new_context(
        viewport={"width": width, "height": height}, device_scale_factor=SHARP, has_touch=touch,
        is_mobile=touch,
    )  # fmt: skip
    context.add_init_script(f"({AHEAD})({server.ahead_s * 1000})")
    context.add_init_script(f"localStorage.setItem('light', '{light}')")
    page = context.new_page()
    page.goto(address)
    page.wait_for_function(LINKED)
    server.pages.append(page)
    yield page
    server.pages.remove(page)
    context.close()


class PicturedHand(Hand):
    """A hand that stops for a picture of each step before it acts."""

    camera: Camera

    def act(self, seen: Seen) -> None:
        """Take its picture, then do what it asks."""
        self.camera.sees(self.page, seen)
        super().act(seen)


def main() -> None:
    """Play the pour and take the pictures."""
    with (
        tempfile.TemporaryDirectory() as folder,
        serving(Together(Path(folder))) as server,
        sync_playwright() as play,
    ):
        server.pages = []
        kitchen = Kitchen(SEED)
        sheet = server.fill(records(kitchen), TWO_CUPS)
        server.start()
        browser = play.chromium.launch(executable_path=browser_file(), args=list(ARGUMENTS))
        address = f"{server.address}/sheets/{sheet}/bench"
        with opened(browser, server, address, PHONE, "auto") as page:
            with server.world().bench() as bench:
                cups = bench.sheets.get(sheet).plan["cups"]
            shots = {cup["number"]: cup["shot_g"] for cup in cups}
            hand = PicturedHand(page, server, kitchen, shots, {"Good": 20, "Dent": 2})
            hand.camera = Camera(browser, server, address)
            _play(hand)
        browser.close()


def _play(hand: PicturedHand) -> None:
    hand.play_to("Oven on")
    hand.act(hand.settled())
    _trouble(hand)
    while hand.kitchen.mean_c(1) < 120:
        hand.act(hand.settled())
    seen = hand.play_to("Keep reading")
    read_f = hand.read(seen, lambda f: round((f - 32) / 1.8))
    hand.settled()
    hand.camera.shoot(hand.page, "which-unit")
    hand.press(f"It was {round((read_f - 32) / 1.8)}")
    _live_line(hand)
    hand.play_to("Tint")
    hand.play_to("Pour")
    hand.play_to("Mold full")
    hand.act(hand.settled())
    _out_of_reach(hand)
    hand.play_to("Hang")
    hand.camera.sees(hand.page, hand.settled())


def _trouble(hand: PicturedHand) -> None:
    """The choice, and what to do first."""
    hand.play_to("Keep reading")
    page = hand.page
    page.locator("#trouble").tap()
    hand.rest(500)
    hand.camera.shoot(page, "something-wrong")
    page.locator("#trouble-over .pad", has_text="Burned").tap()
    hand.rest(500)
    hand.camera.shoot(page, "first-aid")
    page.locator("#trouble-over .pad", has_text="Go on").tap()
    hand.settled()
    hand.camera.shoot(page, "halted")
    hand.press("All is well")


def _live_line(hand: PicturedHand) -> None:
    hand.settled()
    hand.page.locator("#live-chip").tap()
    hand.rest(500)
    hand.camera.shoot(hand.page, "live-line")
    hand.page.locator("#told-over .over-head button").tap()
    hand.rest(500)


def _out_of_reach(hand: PicturedHand) -> None:
    hand.settled()
    hand.server.hold()
    hand.page.wait_for_function("() => window.bench.link() === 'out'")
    hand.rest(500)
    hand.camera.shoot(hand.page, "out-of-reach")
    hand.server.let_go()
    hand.page.wait_for_function(LINKED)


if __name__ == "__main__":
    main()
