"""A pour as its events tell it: nothing is refused here, what does not fit is kept and said."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from pourwright.bench.cup_story import CupStory
from pourwright.bench.tap_body import CameOut, KeptBack


@dataclass(frozen=True, slots=True)
class Burst:
    """The oven running on a cup, or just done; `ended` where it was stopped early."""

    id: str
    began: str
    for_s: float
    ended: str = ""


@dataclass(frozen=True, slots=True)
class Dripped:
    """What went in of a tint so far: whole drops, grams by weight, and whether that is all."""

    drops: int = 0
    grams: float = 0.0
    done: bool = False


@dataclass(frozen=True, slots=True)
class CupNow:
    """A cup of the pour: `weighed` holds grams by part, `tint` what was dripped by part.

    `rounds` counts its bursts since the last shot, `more` the shots beyond the sheet's; `over` once
    it is poured or thrown away.
    """

    number: int
    weighed: Mapping[str, float] = field(default_factory=dict)
    by_hand: bool = False
    burst: Burst | None = None
    hot: bool = False
    tint: Mapping[str, Dripped] = field(default_factory=dict)
    primed: bool = False
    shots: int = 0
    rounds: int = 0
    more: int = 0
    over: bool = False
    discarded: bool = False


@dataclass(frozen=True, slots=True)
class MoldUse:
    """One shot in one mold; `soft_at` are the times it was found still soft."""

    id: str
    mold: int
    filled: str
    opened: str = ""
    soft_at: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WentWrong:
    """Something that went wrong, and when."""

    what: str
    at: str


@dataclass(frozen=True, slots=True)
class Stray:
    """An event that did not fit where it came: kept, and said why."""

    id: str
    kind: str
    at: str
    why: str


@dataclass(frozen=True, slots=True)
class Hung:
    """Where the baits hang, since when and for how many hours."""

    place: str
    at: str
    for_h: float


@dataclass(frozen=True, slots=True)
class Newest:
    """The newest event that fits, which an undo would take back."""

    id: str
    kind: str
    at: str
    body: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Pour:
    """Where a pour stands.

    `halted` from something wrong until somebody goes on; `dipped` once a mold of it was cooled in
    water.
    """

    cups: Mapping[int, CupNow]
    stories: Mapping[int, CupStory] = field(default_factory=dict)
    ready: frozenset[str] = frozenset()
    dried: frozenset[str] = frozenset()
    wet: frozenset[int] = frozenset()
    uses: tuple[MoldUse, ...] = ()
    tally: Mapping[str, int] = field(default_factory=dict)
    five_g: float | None = None
    five_asked: bool = False
    back: KeptBack | None = None
    finished: frozenset[str] = frozenset()
    counted: bool = False
    hung: Hung | None = None
    off_at: str = ""
    away_since: str = ""
    away_s: float = 0.0
    troubles: tuple[WentWrong, ...] = ()
    halted: bool = False
    dipped: bool = False
    strays: tuple[Stray, ...] = ()
    began_at: str = ""
    newest: Newest | None = None

    def in_mold(self, mold: int) -> MoldUse | None:
        """The shot a mold holds now."""
        newest = next((u for u in reversed(self.uses) if u.mold == mold), None)
        return newest if newest and not newest.opened else None

    @property
    def full(self) -> tuple[MoldUse, ...]:
        """The shots that lie in their molds, oldest first."""
        return tuple(u for u in self.uses if not u.opened)

    @property
    def baits(self) -> int:
        """Baits counted so far, good and bad."""
        return sum(self.tally.values())

    @property
    def good(self) -> int:
        """Good baits counted, those trimmed first among them."""
        return self.tally.get(CameOut.GOOD, 0) + self.tally.get(CameOut.TRIMMED, 0)

    @property
    def rejected(self) -> int:
        """Baits counted as no good, those of warm-up shots apart."""
        return self.baits - self.good - self.tally.get(CameOut.WARMUP, 0)

    @property
    def in_oven(self) -> CupNow | None:
        """The cup whose burst has no reading yet."""
        return next((c for c in self.cups.values() if c.burst is not None and not c.over), None)
