"""What a screen is made from: a pour at one moment, or as it may stand after a few taps."""

from __future__ import annotations

import zlib
from dataclasses import dataclass

from pourwright.actions.see_cup import CupView
from pourwright.actions.told_pour import ToldPour
from pourwright.bench.hand import Hand
from pourwright.bench.pour import CupNow, Pour
from pourwright.bench.pour_setup import CupTask, Part
from pourwright.web.bench.screen import Phase, Screen
from pourwright.web.show import Settings


@dataclass(frozen=True, slots=True)
class Moment:
    """A pour, what to do, and the cup in question as judged; foreseen moments judge nothing."""

    told: ToldPour
    hand: Hand
    now: str
    settings: Settings
    view: CupView | None = None

    @property
    def cup(self) -> CupNow:
        """The cup the hand is about."""
        return self.told.pour.cups[self.hand.cup]

    @property
    def task(self) -> CupTask:
        """What the sheet asks of that cup."""
        return next(c for c in self.told.setup.cups if c.number == self.hand.cup)

    @property
    def part(self) -> Part:
        """The part the hand is about."""
        parts = (*self.task.weigh, *self.task.tint)
        return next(p for p in parts if p.key == self.hand.item)

    @property
    def about(self) -> str:
        """Which cup or mold it is, of how many."""
        if self.hand.cup:
            return about_cup(self.told, self.hand.cup)
        if self.hand.cups:
            return about_cups(self.told, self.hand.cups)
        return ""

    def mold_name(self, mold: int) -> str:
        """A mold by its name."""
        return self.told.setup.molds[mold - 1]

    def screen(self, *phases: Phase, count: int = 0, began: str | None = None) -> Screen:
        """The screen of this moment; `count` tells apart what comes more than once."""
        hand = self.hand
        parts = (hand.what.replace(" ", "_"), hand.cup, hand.mold, hand.item or "", count)
        key = "-".join(str(p) for p in (*parts, _digest(self.told.pour)))
        return Screen(key, hand.stage.value, self.about, phases, began)


def _digest(pour: Pour) -> str:
    """Tells apart the same step with other molds full or wet, or other cups at hand.

    Screens foreseen along two ways are one only where the pour stands alike.
    """
    molds = [(u.mold, len(u.soft_at)) for u in pour.full]
    cups = [(c.number, c.shots, c.more, c.hot, c.over, c.primed) for c in pour.cups.values()]
    stands = (molds, len(pour.uses), sorted(pour.wet), cups, pour.halted)
    return f"{zlib.crc32(repr(stands).encode()):08x}"


def about_cups(told: ToldPour, numbers: tuple[int, ...]) -> str:
    """The cups of one shot in words, short enough for the top of a phone."""
    if len(numbers) == 1:
        return about_cup(told, numbers[0])
    return f"Cups {' and '.join(map(str, numbers))}"


def about_cup(told: ToldPour, number: int) -> str:
    """A cup in words: its number, of how many, and its layer where the look has several."""
    cups = told.setup.cups
    words = f"Cup {number} of {len(cups)}" if len(cups) > 1 else "The cup"
    layers = told.setup.layers
    layer = next(c.layer for c in cups if c.number == number)
    return f"{words}, {layer}" if len(layers) > 1 else words
