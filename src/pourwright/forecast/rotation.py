"""The acts of one pair of hands while a cup is poured into some molds: the values."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.draws import Array
from pourwright.heat.bait_in_mold import LONGEST_S


class Doing(StrEnum):
    """What the hands do."""

    DRAW = "draw"
    SHOOT = "shoot"
    OPEN = "open"
    REWARM = "rewarm"
    WAIT = "wait"


@dataclass(frozen=True, slots=True, eq=False)
class Act:
    """One act of the hands; `mold` counts from 0 and is -1 where none is meant.

    `cup_c` is the cup at the start of the act, `mold_c` the mold that is shot or opened.
    """

    doing: Doing
    mold: int
    start_s: Array
    end_s: Array
    cup_c: Array
    mold_c: Array


@dataclass(frozen=True, slots=True, eq=False)
class Hands:
    """Seconds of one act each, drawn; `handling_s` carries the cup to the oven, back, and stirs."""

    draw_s: Array
    shoot_s: Array
    open_s: Array
    handling_s: Array
    extra_s: Array


@dataclass(frozen=True, slots=True, eq=False)
class Pour:
    """What is to be poured: shots out of one cup into molds that are alike."""

    shots: int
    shot_g: Array
    molds: int
    shots_a_load: int
    mold_c: Array


@dataclass(frozen=True, slots=True, eq=False)
class Rotation:
    """The acts until the last mold is empty; `open_s` is each shot's time until firm, in order."""

    acts: tuple[Act, ...]
    molds: int
    open_s: tuple[Array, ...]

    @property
    def seconds(self) -> Array:
        """From the first act to the last."""
        return self.acts[-1].end_s

    @property
    def idle_s(self) -> Array:
        """Seconds without an act of the hands."""
        acts = (d for d in Doing if d is not Doing.WAIT)
        return np.asarray(self.seconds - sum(self.spent_s(d) for d in acts))

    @property
    def warmest_c(self) -> float:
        """Warmest mold before a shot, typical."""
        return max(float(a.mold_c[0]) for a in self.acts if a.doing is Doing.SHOOT)

    @property
    def coldest_draw_c(self) -> float:
        """Coldest cup that is drawn from, typical."""
        return min(float(a.cup_c[0]) for a in self.acts if a.doing is Doing.DRAW)

    @property
    def late_share(self) -> float:
        """Share of the draws in which some mold is not firm within the longest time followed."""
        late = [s >= LONGEST_S * (1 - 1e-9) for s in self.open_s]
        return float(np.mean(np.any(late, axis=0)[1:])) if len(late[0]) > 1 else 0.0

    def spent_s(self, doing: Doing) -> Array:
        """Seconds spent on acts of one sort."""
        zero = np.zeros_like(self.seconds)
        return np.asarray(zero + sum(a.end_s - a.start_s for a in self.acts if a.doing is doing))

    def count(self, doing: Doing) -> int:
        """Acts of one sort on the typical draw."""
        return sum(1 for a in self.acts if a.doing is doing and a.end_s[0] > a.start_s[0])
