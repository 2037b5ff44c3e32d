"""A hand at the bench: it presses what the screen shows, and stirs, reads and pours in the kitchen.

Minutes pass by setting the laptop's clock ahead; what the page asks again by its own clock is
asked again then.
"""

from __future__ import annotations

import json
import re
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from typing import Any

from playwright.sync_api import Locator, Page, Request, Response
from playwright.sync_api import TimeoutError as NotTouched

from browser.pour_kitchen import Kitchen
from browser.pour_server import PourServer
from browser.pour_sight import Seen, pressing, sight

LINKED = "() => window.bench && window.bench.link() === 'linked'"
ASK = "dispatchEvent(new PageTransitionEvent('pageshow', {persisted: true}))"
# A screen that has stood so long takes presses again; a wait for molds is lived through in pieces.
STANDS_S, PIECE_S = 0.4, 20.0
PATIENCE_S, SILENT_S, MOST_PRESSES, LOOK_MS, HOLD_MS = 20.0, 5.0, 4, 40, 1150
STIRRING_S, FILLING_S, OPENING_S = 8.0, 12.0, 20.0
TYPED = {"plastic": "72", "air": "72", "five_g": "61.5", "remelt_g": "41", "sprue_g": "24"}


class ScreenChanged(LookupError):
    """The laptop asks for something else by now."""


@dataclass
class Hand:
    """One person with one device, among the cups of one kitchen.

    `counts` says how many came out how, by the words on the screen; `shots_g` what one shot draws
    from each cup. `made` holds every tap the browser sent, by id, as they were first sent.
    """

    page: Page
    server: PourServer
    kitchen: Kitchen
    shots_g: dict[int, float]
    counts: dict[str, int] = field(default_factory=dict)
    made: dict[str, dict[str, Any]] = field(default_factory=dict)
    weighed_g: dict[int, float] = field(default_factory=dict)
    hot_c: dict[int, float] = field(default_factory=dict)
    presses: int = 0
    in_vain: int = 0
    failures: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.page.on("request", self._note)
        self.page.on("response", self._watch)

    def _watch(self, answer: Response) -> None:
        if answer.status >= 500:
            self.failures.append(f"{answer.status} of {answer.url}")

    def _note(self, request: Request) -> None:
        if request.method == "POST" and request.url.endswith("/taps"):
            for tap in json.loads(request.post_data or "")["taps"]:
                self.made.setdefault(tap["id"], tap)

    def look(self) -> Seen:
        return sight(self.page)

    def rest(self, milliseconds: float = LOOK_MS) -> None:
        self.page.wait_for_timeout(milliseconds)

    def settled(self) -> Seen:
        """The screen once it has stood still and takes presses. Fails where the server failed."""
        if self.failures:
            raise RuntimeError(f"the server failed: {self.failures}")
        seen, since = self.look(), time.monotonic()
        end = since + PATIENCE_S
        while time.monotonic() - since < STANDS_S or not seen.at_rest:
            self.rest()
            now = self.look()
            since = since if now.still == seen.still else time.monotonic()
            seen = now
            if time.monotonic() > end:
                raise TimeoutError(f"the screen does not come to rest: {seen}")
        return seen

    def pad(self, label: str) -> Locator:
        """The pad, undo or choice that says so."""
        words = re.compile(rf"^\s*{re.escape(label)}")
        return self.page.locator(".pad, .undo").locator("visible=true").filter(has_text=words).first

    def press(self, label: str, *, on: Seen | None = None, hold: bool = False) -> dict[str, Any]:
        """Press what says so and give the tap it made; a press that did not count is made again.

        `on` is the settled screen, where it was seen just now. The page says of a press that it
        does not count, however long a busy machine takes over it.
        """
        before, made = on or self.settled(), len(self.made)
        if not self.pad(label).is_visible():
            raise ScreenChanged(f"{label!r} is gone: {before}")
        for _ in range(MOST_PRESSES):
            self.presses += 1
            try:
                self.touch(label, hold=hold)
            except NotTouched:
                if self.pad(label).is_visible():
                    raise
                if len(self.made) == made:
                    raise ScreenChanged(f"{label!r} went away: {self.look()}") from None
            self.until(lambda: self._moved(before) or bool(self.look().brief), SILENT_S)
            self.until(lambda: self._moved(before) or not self.look().brief)
            if self._moved(before):
                return self._newest(made)
            self.in_vain += 1
        raise TimeoutError(f"pressing {label!r} does nothing: {self.look()}")

    def _moved(self, before: Seen) -> bool:
        return self.look().still != before.still

    def touch(self, label: str, *, hold: bool = False) -> None:
        """Put a finger on what says so."""
        pad = self.pad(label)
        if hold:
            with pressing(pad):
                self.rest(HOLD_MS)
            return
        pad.tap(timeout=1e3 * PATIENCE_S)

    def _newest(self, known: int) -> dict[str, Any]:
        if not self.until(lambda: len(self.made) > known):
            raise TimeoutError(f"a press sent nothing: {self.look()}")
        return list(self.made.values())[-1]

    def until(self, true: Callable[[], bool], seconds: float = PATIENCE_S) -> bool:
        """Look again and again whether it is true by now; whether it ever was."""
        end = time.monotonic() + seconds
        while not true():
            if time.monotonic() > end:
                return False
            self.rest()
        return True

    def type(self, box: str, text: str) -> None:
        self.page.fill(f"[name={box}]", text)

    def play_to(self, *wanted: str, most: int = 200) -> Seen:
        """Go on until the screen shows a step, phase or main pad of one of these names."""
        for _ in range(most):
            seen = self.settled()
            if {seen.step, seen.name, seen.main} & set(wanted):
                return seen
            with suppress(ScreenChanged):
                self.act(seen)
        raise TimeoutError(f"{wanted} never came; the screen shows {self.look()}")

    def act(self, seen: Seen) -> None:
        """Do what the screen asks for."""
        if not seen.main:
            self.wait(seen)
        else:
            _DEEDS.get(seen.main, Hand.just_press)(self, seen)

    def just_press(self, seen: Seen) -> None:
        for box in seen.boxes:
            if box in TYPED:
                self.type(box, TYPED[box])
        self.press(seen.main, on=seen)

    def wait(self, seen: Seen) -> None:
        """Live on to the end of a running clock, or for a while."""
        most = PIECE_S if seen.step == "Cool and open" else 3600.0
        piece = min(max(seen.left_s, 1.0), most)
        self.server.pass_s(piece)
        self.page.evaluate(ASK)

        def follows() -> bool:
            now = self.look()
            return now.still != seen.still or (now.timer and now.left_s <= seen.left_s - piece + 1)

        if not self.until(follows):
            raise TimeoutError(f"the page does not follow the laptop's clock: {self.look()}")

    def weigh(self, seen: Seen) -> None:
        body = self.press(seen.main, on=seen)["body"]
        cup = body["cup"]
        self.weighed_g[cup] = self.weighed_g.get(cup, 0.0) + body["grams"]

    def heat(self, seen: Seen) -> None:
        body = self.press(seen.main, on=seen)["body"]
        if body["cup"] not in self.kitchen.standing:
            self.kitchen.fill(body["cup"], self.weighed_g[body["cup"]], self.server.now())
        self.kitchen.heat(body["cup"], self.server.now(), body["for_s"])

    def read(self, seen: Seen, shown: Callable[[int], int] = int) -> int:
        """Stir, read, and type `shown` of what the gun shows in °F; gives what it truly showed."""
        self.server.pass_s(STIRRING_S)
        read_f = self.kitchen.read_f(seen.cup, self.server.now())
        self.type("read", str(shown(read_f)))
        if self.press(seen.main)["body"]["cup"] != seen.cup:
            raise LookupError(f"the reading of cup {seen.cup} went to another cup")
        return read_f

    def call_hot(self, seen: Seen) -> None:
        cup = self.press(seen.main, on=seen)["body"]["cup"]
        self.hot_c[cup] = self.kitchen.mean_c(cup)

    def fill_mold(self, seen: Seen) -> None:
        self.server.pass_s(FILLING_S)
        for cup in self.press(seen.main)["body"]["cups"]:
            self.kitchen.draw(cup, self.server.now(), self.shots_g[cup])

    def open_mold(self, seen: Seen) -> None:
        self.server.pass_s(OPENING_S)
        self.press(seen.main)

    def next(self, seen: Seen) -> None:
        """Count, or type what the scale shows."""
        if "n" in seen.boxes and seen.name in self.counts:
            self.count(seen.name, self.counts[seen.name])
        self.just_press(seen)

    def count(self, name: str, number: int) -> None:
        """Count with the steps beside the box."""
        tens, ones = divmod(number, 10)
        for step, times in (("+10", tens), ("+1", ones)):
            for _ in range(times):
                self.page.get_by_role("button", name=f"{name}: {step}", exact=True).tap()


_DEEDS: dict[str, Callable[[Hand, Seen], object]] = {
    "In": Hand.weigh,
    "Oven started": Hand.heat,
    "Keep reading": Hand.read,
    "Tint it": Hand.call_hot,
    "Pour it": Hand.call_hot,
    "Mold full": Hand.fill_mold,
    "Out, closed again": Hand.open_mold,
    "Next": Hand.next,
}
