"""A cup that cools on the bench while it is drawn empty, and is warmed again now and then."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.heat.oven import LOAD_HALF_KG, loaded_power
from pourwright.matter import plastisol

# Of a full cup's losses the part that does not fall with the level, and the heat of the glass
# against that of its plastic: estimates for a half-liter glass cup.
ENDS_SHARE = 0.4
GLASS_SHARE = 0.3
LONGEST_REWARM_S = 900.0


def time_constant_s(window_s: Array, *, from_c: float, to_c: float, ambient_c: Array) -> Array:
    """Time constant of a cup that takes so long from one temperature to another."""
    return np.asarray(window_s / np.log((from_c - ambient_c) / (to_c - ambient_c)))


def _taken_up(load_g: Array) -> Array:
    return loaded_power(np.ones_like(load_g), np.array(LOAD_HALF_KG.typical), load_g / 1000)


@dataclass(frozen=True, slots=True, eq=False)
class HotCup:
    """What is known of the cup and its oven; draws throughout.

    `slow_s` is the time constant of the full cup on the bench; `power_w` what it takes up in the
    oven; the cup is drawn from between `target_c` and `least_c`.
    """

    full_g: Array
    target_c: float
    least_c: float
    ambient_c: Array
    slow_s: Array
    power_w: Array

    def holding(self, left_g: Array) -> CupLevel:
        """The cup with so much left in it."""
        level = left_g / self.full_g
        held = (level + GLASS_SHARE) / (1 + GLASS_SHARE)
        slow = self.slow_s * held / (ENDS_SHARE + (1 - ENDS_SHARE) * level)
        taken = _taken_up(left_g) / _taken_up(self.full_g)
        middle = np.array((self.target_c + self.least_c) / 2)
        heat = held * (1 + GLASS_SHARE) * self.full_g / 1000
        return CupLevel(
            self.target_c,
            self.ambient_c,
            slow,
            heat * plastisol.heat_capacity_j_kgk(middle),
            self.power_w * taken,
        )


@dataclass(frozen=True, slots=True, eq=False)
class CupLevel:
    """The cup at one level: its time constant on the bench, its heat and its power."""

    target_c: float
    ambient_c: Array
    slow_s: Array
    heat_j_k: Array
    power_w: Array

    def cooled_c(self, cup_c: Array, seconds: Array) -> Array:
        """The mean after so long on the bench."""
        fade = np.exp(-seconds / self.slow_s)
        return np.asarray(self.ambient_c + (cup_c - self.ambient_c) * fade)

    def rewarm_s(self, cup_c: Array) -> Array:
        """Seconds in the oven back to the target: what is left, against its losses.

        A quarter of an hour at most, for an oven that hardly gets there.
        """
        over = np.maximum(self._ends_at_c - self.target_c, 1e-3)
        seconds = self.slow_s * np.log(np.maximum(self._ends_at_c - cup_c, over) / over)
        return np.asarray(np.minimum(seconds, LONGEST_REWARM_S))

    def warmed_c(self, cup_c: Array, seconds: Array) -> Array:
        """The mean after so long in the oven."""
        fade = np.exp(-seconds / self.slow_s)
        return np.asarray(self._ends_at_c + (cup_c - self._ends_at_c) * fade)

    @property
    def _ends_at_c(self) -> Array:
        """Where power and losses would balance."""
        return np.asarray(self.ambient_c + self.power_w * self.slow_s / self.heat_j_k)
