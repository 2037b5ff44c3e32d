"""How long the laptop takes to say where a pour stands, and how much it says."""

from __future__ import annotations

import dataclasses
import http.client
import time
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass

from browser.pour_kitchen import ONE_CUP, TWO_CUPS
from pourwright.actions.guide_pour import Guide
from pourwright.bench.hand import What
from pourwright.cli.start import HOME
from pourwright.shop.draft import Draft
from speed.bench.place import Place, place

ASKS = 40
# Eleven shots, of which nine are poured.
LONG = dataclasses.replace(TWO_CUPS, count=80)
LATE_SHOTS = 9


@dataclass(frozen=True)
class Answers:
    """Seconds of each answer, bytes of the last, and how many events lay behind it."""

    what: str
    seconds: list[float]
    size: int
    events: int


def answers() -> list[Answers]:
    """One cup in hand, two, and late in a long pour."""
    return [
        _asked("1 cup, heated", ONE_CUP, lambda guide: guide.hand.what is What.TINT),
        _asked("2 cups, both heated", TWO_CUPS, lambda guide: guide.hand.what is What.FILL),
        _asked("late in a long pour, 2 cups", LONG, _late),
    ]


def _late(guide: Guide) -> bool:
    return guide.hand.what is What.FILL and len(guide.told.pour.uses) >= LATE_SHOTS


def _asked(what: str, draft: Draft, arrived: Callable[[Guide], bool]) -> Answers:
    with place(draft) as it:
        it.player.until(arrived)
        asked = [_ask(it) for _ in range(ASKS)]
        events = len(it.server.lot(it.sheet))
    return Answers(what, [seconds for seconds, _ in asked], asked[-1][1], events)


def _ask(it: Place) -> tuple[float, int]:
    """A second later each time, so that nothing is kept from the answer before."""
    it.server.pass_s(1)
    start = time.perf_counter()
    with closing(http.client.HTTPConnection(HOME, it.server.port, timeout=60)) as line:
        line.request("GET", f"/sheets/{it.sheet}/bench/state")
        size = len(line.getresponse().read())
    return time.perf_counter() - start, size
