"""One pair of hands, one cup, some molds: who waits for whom until the cup is empty.

The order of the acts is decided on the typical draw; every other draw keeps that order and takes
its own times.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array
from pourwright.forecast.hot_cup import HotCup
from pourwright.forecast.rotation import Act, Doing, Hands, Pour, Rotation
from pourwright.heat.bait_in_mold import BaitInMold
from pourwright.physics.cooling_body import Cooling


def in_a_row(shots_a_load: int, *, window_s: Array, shoot_s: Array) -> int:
    """Molds shot from one load: as many as it fills and as start while it still flows."""
    return min(shots_a_load, 1 + int(window_s[0] / shoot_s[0]))


def rotated(pour: Pour, hands: Hands, cup: HotCup, bait: BaitInMold) -> Rotation:
    """Draw, shoot, wait, open, warm the cup: until all shots are out of their molds.

    Rules: a firm mold is opened at once, unless a whole load of empty ones stands ready; empty
    molds are shot as many in a row as a load fills; the cup is warmed while the molds cool, or
    before a draw that would find it under its limit; hands watch the oven while it runs.
    """
    bench = _Bench(pour, hands, cup, bait)
    while bench.left or bench.full:
        firm = bench.firm()
        empty = bench.empty()
        if bench.left and empty and (not firm or len(empty) >= pour.shots_a_load):
            bench.fill(empty[: min(pour.shots_a_load, bench.left)])
        elif firm:
            bench.open(firm[0])
        else:
            bench.wait()
    return bench.done()


@dataclass(slots=True, eq=False)
class _Closed:
    """A mold with a shot in it."""

    cooling: Cooling
    since_s: Array
    ready_s: Array


class _Bench:
    """The bench at one moment."""

    def __init__(self, pour: Pour, hands: Hands, cup: HotCup, bait: BaitInMold) -> None:
        self._pour, self._hands, self._cup, self._bait = pour, hands, cup, bait
        self._now = np.zeros_like(cup.full_g)
        self._cup_c, self._cup_g = self._now + cup.target_c, cup.full_g
        self._level = cup.holding(cup.full_g)
        self._cup_at = self._now
        self._opened = [(self._now, pour.mold_c)] * pour.molds
        self._acts: list[Act] = []
        self._firm: list[Array] = []
        self.left = pour.shots
        self.full: dict[int, _Closed] = {}

    def empty(self) -> list[int]:
        """Empty molds, the one that has rested longest first."""
        free = [i for i in range(self._pour.molds) if i not in self.full]
        return sorted(free, key=lambda i: (float(self._opened[i][0][0]), i))

    def firm(self) -> list[int]:
        """Molds that may be opened now, the one that is firm longest first."""
        found = [i for i, m in self.full.items() if m.ready_s[0] <= self._now[0] + 1e-9]
        return sorted(found, key=lambda i: float(self.full[i].ready_s[0]))

    def fill(self, molds: list[int]) -> None:
        """Draw a load and shoot it into empty molds."""
        self._settle(self._now)
        self._rewarm(self._cup_c < self._cup.least_c)
        self._do(Doing.DRAW, -1, self._hands.draw_s, mold_c=self._now * 0)
        self._cup_g = np.maximum(self._cup_g - len(molds) * self._pour.shot_g, 1.0)
        self._level = self._cup.holding(self._cup_g)
        for mold in molds:
            opened_at, opened_c = self._opened[mold]
            cold = self._bait.mold.rested_c(opened_c, self._now - opened_at)
            self._do(Doing.SHOOT, mold, self._hands.shoot_s, mold_c=cold)
            poured = self._bait.poured(cold)
            firm = self._bait.open_s(poured)
            self.full[mold] = _Closed(poured, self._now, self._now + firm + self._hands.extra_s)
            self._firm.append(firm)
        self.left -= len(molds)

    def open(self, mold: int) -> None:
        """Take out what a mold made; in draws where it is not firm yet, wait for it."""
        closed = self.full.pop(mold)
        self._now = np.maximum(self._now, closed.ready_s)
        warm = self._bait.mold_c(closed.cooling, self._now - closed.since_s)
        self._opened[mold] = (self._now, warm)
        self._do(Doing.OPEN, mold, self._hands.open_s, mold_c=warm)

    def wait(self) -> None:
        """Wait for the next mold; warm the cup meanwhile if the next draw would find it cold."""
        soonest = min(self.full.values(), key=lambda m: float(m.ready_s[0]))
        self._settle(self._now)
        if self.left:
            several = min(self._pour.shots_a_load, self.left, len(self.full))
            draw_at = soonest.ready_s + several * self._hands.open_s
            idle = np.maximum(draw_at - self._now, 0.0)
            cold = self._level.cooled_c(self._cup_c, idle) < self._cup.least_c
            if cold[0]:
                whole = self._level.rewarm_s(self._cup_c) + self._hands.handling_s
                self._pause(np.maximum(self._now, soonest.ready_s - whole))
                self._settle(self._now)
            self._rewarm(cold)
        self._pause(soonest.ready_s)

    def done(self) -> Rotation:
        """All acts, and how long each shot took to be firm."""
        return Rotation(tuple(self._acts), self._pour.molds, tuple(self._firm))

    def _pause(self, until: Array) -> None:
        gap = np.maximum(until - self._now, 0.0)
        self._do(Doing.WAIT, -1, gap, mold_c=gap * 0)

    def _rewarm(self, cold: NDArray[np.bool_]) -> None:
        """Warm the cup back to its target in the draws where it is needed."""
        if not cold.any():
            return
        self._settle(self._now)
        half = self._hands.handling_s / 2
        carried = self._level.cooled_c(self._cup_c, half)
        on = self._level.rewarm_s(carried)
        hot = self._level.cooled_c(self._level.warmed_c(carried, on), half)
        before = self._cup_c
        self._do(Doing.REWARM, -1, np.where(cold, on + 2 * half, 0.0), mold_c=half * 0)
        self._cup_c = np.where(cold, hot, before)
        self._cup_at = self._now

    def _settle(self, at: Array) -> None:
        """Let the cup cool up to a time."""
        if at is self._cup_at:
            return
        self._cup_c = self._level.cooled_c(self._cup_c, at - self._cup_at)
        self._cup_at = at

    def _do(self, doing: Doing, mold: int, seconds: Array, *, mold_c: Array) -> None:
        self._settle(self._now)
        end = self._now + seconds
        self._acts.append(Act(doing, mold, self._now, end, self._cup_c, mold_c))
        self._now = end
