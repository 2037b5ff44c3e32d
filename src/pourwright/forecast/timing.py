"""How long a batch keeps a pair of hands and the bench busy."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array


@dataclass(frozen=True, slots=True)
class CupTime:
    """What one cup asks for: seconds of heating, waves of molds, and shots."""

    heat_s: Array
    rewarm_s: Array
    waves: int
    shots: int


@dataclass(frozen=True, slots=True)
class HandTime:
    """Seconds of one act each, drawn."""

    weigh_s: Array
    shoot_s: Array
    unload_s: Array
    finish_s: Array


def batch_seconds(
    cups: tuple[CupTime, ...], *, open_s: Array, hands: HandTime, baits: int
) -> Array:
    """Seconds from the first weighing to the last bait hung, one person, one oven.

    Each wave is shot, cools in its molds and is unloaded; what is left in the cup is rewarmed
    while the molds cool. Cups follow one another. Estimate: acts in sequence, no overlap between
    cups, so that a practised pair of hands is faster.
    """
    total = np.zeros_like(open_s)
    for cup in cups:
        total = total + hands.weigh_s + cup.heat_s
        total = total + cup.shots * (hands.shoot_s + hands.unload_s) + cup.waves * open_s
        beside_cooling = np.maximum(cup.rewarm_s - open_s, 0.0)
        total = total + (cup.waves - 1) * beside_cooling
    return np.asarray(total + baits * hands.finish_s)
