"""What stands on the screen of a guided pour, and a finger on its glass."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from playwright.sync_api import CDPSession, Locator, Page

SEEN = """() => {
  const text = id => document.getElementById(id).textContent.trim();
  const label = node => node?.querySelector('.pad-label, .undo-words')?.textContent ?? '';
  const shows = id => !document.getElementById(id).hidden;
  return {
    step: text('step-name'), name: text('phase-name') || text('step-name'), about: text('about'),
    huge: shows('huge') ? text('huge-text') : '',
    timer: shows('huge') && document.getElementById('huge').getAttribute('role') === 'timer',
    main: label(document.querySelector('#main-place .pad')),
    sides: [...document.querySelectorAll('#side-place .pad')].map(label),
    boxes: [...document.querySelectorAll('#entries input[type=text]')].map(box => box.name),
    words: text('words'), wait: text('wait'), brief: text('brief'),
    undo: label(document.querySelector('.undo')),
    strip: shows('strip') ? text('strip') : '', chips: [...document.querySelectorAll('.chip-time')]
      .map(chip => chip.textContent),
    link: window.bench.link(), waiting: window.bench.outbox().length,
  };
}"""


@dataclass(frozen=True)
class Seen:
    """What stands on the screen; `main` and `sides` are the words on its pads.

    `brief` says why the last press did not count, for two seconds.
    """

    step: str
    name: str
    about: str
    huge: str
    timer: bool
    main: str
    sides: list[str]
    boxes: list[str]
    words: str
    wait: str
    brief: str
    undo: str
    strip: str
    chips: list[str]
    link: str
    waiting: int

    @property
    def still(self) -> tuple[object, ...]:
        """What stays as it is while nothing but time passes."""
        undo = self.undo.removeprefix("Hold to undo: ").removeprefix("Undo: ")
        huge = "" if self.timer else self.huge
        return self.step, self.name, self.about, self.main, huge, undo, self.wait

    @property
    def at_rest(self) -> bool:
        """Nothing is on its way: the laptop has every tap, or is known to be away."""
        return self.link != "linked" or not (self.wait or self.waiting)

    @property
    def left_s(self) -> float:
        """What a clock or a burst shows, in seconds; below zero once it is over."""
        sign = -1 if self.huge.startswith("+") else 1
        minutes, seconds = self.huge.removeprefix("+").split(":")
        return sign * (int(minutes) * 60.0 + int(seconds))

    @property
    def cup(self) -> int:
        """Which cup the step is about."""
        found = re.search(r"Cup (\d+)", self.about)
        return int(found[1]) if found else 1


def sight(page: Page) -> Seen:
    """What the page shows now."""
    return Seen(**page.evaluate(SEEN))


class Finger:
    """A finger over one place of the screen, to be put down and lifted when it suits."""

    def __init__(self, on: Locator) -> None:
        box = on.bounding_box()
        if box is None:
            raise LookupError(f"{on} is not on the screen")
        self._session: CDPSession = on.page.context.new_cdp_session(on.page)
        self._point = {"x": box["x"] + box["width"] / 2, "y": box["y"] + box["height"] / 2}

    def down(self) -> None:
        self._touch("touchStart", [self._point])

    def up(self) -> None:
        self._touch("touchEnd", [])

    def _touch(self, kind: str, points: list[dict[str, float]]) -> None:
        self._session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})


@contextmanager
def pressing(on: Locator) -> Iterator[None]:
    """A finger that lies on it meanwhile."""
    finger = Finger(on)
    finger.down()
    try:
        yield
    finally:
        finger.up()
