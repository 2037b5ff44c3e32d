"""Does what the bench asks for, tap by tap, on a clock of its own."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from pourwright.actions.guide_pour import Guide, guide_pour
from pourwright.actions.port import Event, World
from pourwright.actions.tap_event import Tap
from pourwright.actions.tap_pour import Kept, tap_pour
from pourwright.bench import tap_kind as kind
from pourwright.bench.clock import after, before, seconds_between
from pourwright.bench.cup_story import POURED
from pourwright.bench.hand import Hand, What
from pourwright.bench.pour import Pour
from pourwright.bench.pour_setup import PourSetup
from pourwright.bench.tap_body import COUNT_CLOSED, READ
from pourwright.heat.next_step import REST_S, Next

START = "2026-11-26T14:00:00Z"
LAPTOP = "laptop"
# Seconds a hand takes over something, and over anything else: common practice, no source.
TAKES_S = {kind.PART_IN: 20, kind.FILLED: 15, kind.OPENED: 60, kind.DRIPPED: 1}
USUAL_S = 4
MOST_STEPS = 400

Deed = tuple[str, dict[str, Any]]


class SetClock:
    """A clock that goes only when it is told to."""

    def __init__(self, at: str = START) -> None:
        self.at = at

    def now(self) -> str:
        return self.at

    def moment(self) -> str:
        return self.at.replace("Z", ".000Z")

    def goes(self, seconds: float) -> None:
        self.at = after(self.at, round(seconds))


_OF_CUP = {
    What.OVEN: READ,
    What.HOT: kind.HOT,
    What.PRIME: kind.PRIMED,
    What.EMPTY: POURED,
    What.TOO_LITTLE: POURED,
}
_OF_MOLD = {What.DRY: kind.DRIED, What.OPEN: kind.OPENED}
_BARE = {
    What.HALTED: kind.WENT_ON,
    What.TAKE_UP: kind.TAKEN_UP,
    What.FIVE: kind.WEIGHED_FIVE,
    What.BACK: kind.KEPT_BACK,
    What.COUNTED: COUNT_CLOSED,
    What.HANG: kind.HUNG,
    What.RACK: kind.TAKEN_OFF,
}


def deed_of(hand: Hand, setup: PourSetup, pour: Pour) -> Deed | None:
    """What the hands are asked to do, as the tap that tells of it; none where they only wait.

    A cup that is to be cooked is put into the oven; a reading lacks what was read.
    """
    what = hand.what
    if what in _OF_CUP:
        return _OF_CUP[what], {"cup": hand.cup}
    if what in _OF_MOLD:
        return _OF_MOLD[what], {"mold": hand.mold}
    if what in _BARE:
        return _BARE[what], {}
    return _other_deed(hand, setup, pour)


def _other_deed(hand: Hand, setup: PourSetup, pour: Pour) -> Deed | None:
    cup = {"cup": hand.cup}
    match hand.what:
        case What.READY if hand.item == "start":
            return kind.READ_START, {}
        case What.READY:
            return kind.READY, {"item": hand.item}
        case What.DRY_TOOL:
            wet = next(w for w in setup.wet if w.id == hand.item)
            return kind.DRIED, {"sort": wet.sort, "id": wet.id}
        case What.WEIGH:
            task = next(c for c in setup.cups if c.number == hand.cup)
            part = next(p for p in task.weigh if p.key == hand.item)
            told = {"part": part.key, "grams": part.scale_g, "wanted_g": part.grams}
            return kind.PART_IN, cup | told
        case What.COOK:
            return kind.BEGUN, cup | {"for_s": 60.0}
        case What.TINT | What.CARD:
            return kind.TINTED, cup | {"part": hand.item or "card"}
        case What.FILL:
            return kind.FILLED, {"mold": hand.mold, "cups": list(hand.cups)}
        case What.TALLY:
            made = len(pour.uses) * setup.cavities
            return kind.TALLIED, {"came_out": hand.item, "n": made if hand.item == "good" else 0}
        case What.FINISH:
            return kind.FINISHED, {"what": hand.item}
        case _:
            return None


class PourPlayer:
    """Plays the pour of one sheet. `off_c` is what every reading lies above the forecast."""

    def __init__(self, world: World, sheet: int, clock: SetClock, *, off_c: float = 0.5) -> None:
        self.world, self.sheet, self.clock, self.off_c = world, sheet, clock, off_c

    def guide(self) -> Guide:
        return guide_pour(self.world, self.sheet)

    def tap(self, kind_of: str, /, *, ago_s: float = 0, by: str = LAPTOP, **body: Any) -> Kept:
        """One tap, made so long ago and sent now by a clock that is right."""
        made = self.made(kind_of, before(self.clock.at, round(ago_s)), **body)
        return self.send(made, by=by)[0]

    def made(self, kind_of: str, at: str | None = None, /, **body: Any) -> Tap:
        """A tap that is not sent yet."""
        return Tap(self.world.ids.fresh(), kind_of, at or self.clock.at, body)

    def send(self, *taps: Tap, sent_at: str | None = None, by: str = LAPTOP) -> tuple[Kept, ...]:
        """An envelope of taps."""
        return tap_pour(self.world, self.sheet, taps, sent_at=sent_at or self.clock.at, by=by)

    def step(self, guide: Guide | None = None) -> Guide:
        """Do what is asked, or let the clock go to where something is; the answer is what was.

        `guide` is how the pour stands, where that is known already.
        """
        guide = guide or self.guide()
        hand, told = guide.hand, guide.told
        if hand.what is What.OVEN:
            self._to_the_end_of_the_burst(told.pour)
        deed = self._deed(guide)
        if deed is None:
            self.clock.goes(max(1.0, seconds_between(self.clock.at, hand.until or self.clock.at)))
            return guide
        kept = self.tap(deed[0], **deed[1])
        assert kept.kept, kept.words
        assert not kept.words, kept.words
        self.clock.goes(TAKES_S.get(deed[0], USUAL_S))
        return guide

    def until(self, arrived: Callable[[Guide], bool]) -> Guide:
        """Play on until a guide is as wanted; what it asks for is not done yet."""
        for _ in range(MOST_STEPS):
            guide = self.guide()
            if arrived(guide):
                return guide
            self.step(guide)
        raise AssertionError(f"not there after {MOST_STEPS} steps: {self.guide().hand}")

    def to(self, what: What) -> Guide:
        """Play on until that is asked for."""
        return self.until(lambda guide: guide.hand.what is what)

    def events(self, kind_of: str) -> list[Event]:
        """What the ledger keeps of a kind, oldest first."""
        with self.world.bench() as bench:
            code = bench.sheets.get(self.sheet).code
            found = [r.event for r in bench.ledger.of(f"lot/{code}")]
        return [e for e in found if e.kind == kind_of]

    def _deed(self, guide: Guide) -> Deed | None:
        hand = guide.hand
        view = guide.cups.get(hand.cup)
        if hand.what is What.COOK and view is not None:
            if view.answer.do is Next.HEAT:
                return kind.BEGUN, {"cup": hand.cup, "for_s": view.answer.on_s}
            return READ, self._reading(guide)
        if hand.what is What.OVEN:
            return READ, self._reading(guide)
        return deed_of(hand, guide.told.setup, guide.told.pour)

    def _reading(self, guide: Guide) -> dict[str, Any]:
        view = guide.cups.get(guide.hand.cup)
        expected = view.answer.reads_c.typical if view else 100.0
        return {"cup": guide.hand.cup, "read_c": round(expected + self.off_c, 1)}

    def _to_the_end_of_the_burst(self, pour: Pour) -> None:
        burst = pour.in_oven.burst if pour.in_oven else None
        assert burst is not None
        ends = after(burst.began, round(burst.for_s + REST_S))
        self.clock.goes(max(0.0, seconds_between(self.clock.at, ends)))
