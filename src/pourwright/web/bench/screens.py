"""The screen for whatever the hands do next."""

from __future__ import annotations

from collections.abc import Callable

from pourwright.actions.tap_event import Tap, foreseen
from pourwright.bench import tap_kind as kind
from pourwright.bench.hand import What
from pourwright.web.bench import cold, end, hot, mold, tint, trouble
from pourwright.web.bench.moment import Moment
from pourwright.web.bench.screen import Screen


def screen_of(it: Moment) -> Screen:
    """The screen of a moment."""
    return _SCREENS[it.hand.what](it)


def _fill(it: Moment) -> Screen:
    """The clock a filled mold starts is that of the mold as it is now."""
    body = {"mold": it.hand.mold, "cups": list(it.hand.cups)}
    after = foreseen(it.told, Tap("foreseen", kind.FILLED, it.now, body), at=it.now)
    firm = next(f for f in after.firm if f.mold == it.hand.mold)
    return mold.fill(it, firm.wait_s)


_SCREENS: dict[What, Callable[[Moment], Screen]] = {
    What.HALTED: trouble.halted,
    What.TAKE_UP: end.take_up,
    What.READY: cold.ready,
    What.DRY_TOOL: cold.dry_tool,
    What.WEIGH: cold.weigh,
    What.COOK: hot.cook,
    What.OVEN: hot.oven,
    What.HOT: hot.hot,
    What.TINT: tint.tint,
    What.CARD: tint.card,
    What.PRIME: mold.prime,
    What.DRY: mold.dry,
    What.FILL: _fill,
    What.OPEN: mold.opens,
    What.WAIT: mold.wait,
    What.EMPTY: mold.empty,
    What.TOO_LITTLE: mold.too_little,
    What.TALLY: end.tally,
    What.FIVE: end.five,
    What.BACK: end.back,
    What.COUNTED: end.counted,
    What.FINISH: end.finish,
    What.HANG: end.hang,
    What.RACK: end.rack,
    What.DONE: end.done,
}
