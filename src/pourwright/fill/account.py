"""Shots, loads, cups and grams: where every gram of a layer's plastic goes."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import NoAnswer

# Rounding slack when counting whole shots and baits: a part in a thousand million.
_SLACK = 1e-9


@dataclass(frozen=True, slots=True)
class Bench:
    """What the plastic passes through. Grams are kept; volumes only set limits.

    `bait_g` and `feed_g` are one bait and one shot's sprue and runner; `cup_ml` is the brim and
    `cold_g_ml`, `hot_g_ml` the densities; `load_ml` is 0 for pouring by hand.
    """

    bait_g: float
    feed_g: float
    cavities: int
    molds: int
    load_ml: float
    heel_ml: float
    cup_ml: float
    fill_share: float
    residue_g: float
    cold_g_ml: float
    hot_g_ml: float

    @property
    def shot_g(self) -> float:
        """One shot: its baits and its feed."""
        return self.cavities * self.bait_g + self.feed_g

    @property
    def heel_g(self) -> float:
        """What a load leaves in the barrel; it goes back to the pot."""
        return self.heel_ml * self.hot_g_ml if self.load_ml else 0.0

    @property
    def cup_g(self) -> float:
        """The most a cup may hold cold."""
        return self.cup_ml * self.fill_share * self.cold_g_ml

    @property
    def shots_a_load(self) -> int:
        """Molds that one load fills; a shot is never split over two loads."""
        if not self.load_ml:
            return 1
        usable = max(self.load_ml - self.heel_ml, 0.0) * self.hot_g_ml
        fit = int(whole_shots(usable, self.shot_g))
        if fit < 1:
            over = (self.shot_g - usable) / self.hot_g_ml
            raise NoAnswer(
                f"one shot needs {self.shot_g / self.hot_g_ml:.1f} mL hot and the injector gives "
                f"{usable / self.hot_g_ml:.1f} mL: {over:.1f} mL over. Use a larger injector, "
                "fewer cavities, or pour by hand."
            )
        return fit

    @property
    def wave(self) -> int:
        """Shots between two waits for a mold to open: one for each mold, over several loads."""
        return self.molds

    @property
    def shots_a_cup(self) -> int:
        """Shots that one full cup gives."""
        fit = int(whole_shots(self.cup_g - self.cup_need_g(0), self.shot_g))
        if fit < 1:
            over = (self.cup_need_g(1) - self.cup_g) / self.cold_g_ml
            raise NoAnswer(
                f"one shot needs {self.cup_need_g(1) / self.cold_g_ml:.0f} mL in the cup and "
                f"{self.fill_share:.0%} of its brim is {self.cup_g / self.cold_g_ml:.0f} mL: "
                f"{over:.0f} mL over. Use a larger cup or fewer cavities."
            )
        return fit

    def cup_need_g(self, shots: int) -> float:
        """Plastic in a cup that gives so many shots: shots, residue and the injector's heel.

        The heel stays in the barrel from load to load, so each cup pays for it once.
        """
        return shots * self.shot_g + self.residue_g + self.heel_g

    def loads(self, shots: int) -> int:
        """Injector loads for the shots of one cup, wave by wave; 0 for pouring by hand."""
        if not self.load_ml:
            return 0
        full, rest = divmod(shots, self.wave)
        each = math.ceil(self.wave / self.shots_a_load)
        return full * each + (math.ceil(rest / self.shots_a_load) if rest else 0)

    def waves(self, shots: int) -> int:
        """Times the molds are filled from one cup."""
        return math.ceil(shots / self.wave)


@dataclass(frozen=True, slots=True)
class CupShare:
    """What one cup holds and gives."""

    shots: int
    loads: int
    waves: int
    plastic_g: float


@dataclass(frozen=True, slots=True)
class Account:
    """The shots of a batch and where the plastic goes, in grams.

    `plastic_g` is the sum of the other weights: `good_g` holds the baits that were wanted and
    `spare_g` the good ones above that count.
    """

    shots: int
    warmup_shots: int
    cups: tuple[CupShare, ...]
    good: int
    spare: int
    plastic_g: float
    good_g: float
    spare_g: float
    reject_g: float
    warmup_g: float
    feed_g: float
    heel_g: float
    residue_g: float

    @property
    def loads(self) -> int:
        """Injector loads."""
        return sum(c.loads for c in self.cups)

    @property
    def waves(self) -> int:
        """Times the molds are filled, over all cups."""
        return sum(c.waves for c in self.cups)

    @property
    def waste_g(self) -> float:
        """Everything that is not a bait somebody wanted."""
        return self.plastic_g - self.good_g


def whole_shots(room_g: float | Array, shot_g: float | Array) -> Array:
    """Shots that fit a room whole; works on draws as well as on single values."""
    return np.asarray(np.floor(room_g / shot_g + _SLACK))


def shots_for(bench: Bench, *, count: int, reject_share: float, warmup_shots: int) -> int:
    """Shots whose expected good baits reach the count, warm-up shots on top."""
    each = bench.cavities * (1 - reject_share)
    return math.ceil((count - _SLACK) / each) + warmup_shots


def account(bench: Bench, *, count: int, reject_share: float, warmup_shots: int) -> Account:
    """The account of a batch.

    Raises: NoAnswer if a shot does not fit the injector or the cup.
    """
    shots = shots_for(bench, count=count, reject_share=reject_share, warmup_shots=warmup_shots)
    cups = _cups(bench, shots)
    made = (shots - warmup_shots) * bench.cavities
    good = math.floor(made * (1 - reject_share) + 2 * _SLACK)
    plastic = sum(c.plastic_g for c in cups)
    return Account(
        shots=shots,
        warmup_shots=warmup_shots,
        cups=cups,
        good=good,
        spare=good - count,
        plastic_g=plastic,
        good_g=count * bench.bait_g,
        spare_g=(good - count) * bench.bait_g,
        reject_g=(made - good) * bench.bait_g,
        warmup_g=warmup_shots * bench.cavities * bench.bait_g,
        feed_g=shots * bench.feed_g,
        heel_g=len(cups) * bench.heel_g,
        residue_g=len(cups) * bench.residue_g,
    )


def plastic_drawn(done: Account, *, shot_g: Array, heel_g: Array, residue_g: Array) -> Array:
    """What the same shots from the same cups take where a bench is other than typical."""
    cups = len(done.cups)
    return np.asarray(done.shots * shot_g + cups * (residue_g + heel_g))


def _cups(bench: Bench, shots: int) -> tuple[CupShare, ...]:
    """Fewest cups, each with whole shots; the last one may be part-filled."""
    _ = bench.shots_a_load
    most = bench.shots_a_cup
    full, rest = divmod(shots, most)
    sizes = [most] * full + ([rest] if rest else [])
    return tuple(CupShare(n, bench.loads(n), bench.waves(n), bench.cup_need_g(n)) for n in sizes)
