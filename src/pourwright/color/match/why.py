"""Why a shelf cannot make a color, in words."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.match.counter import Counter
from pourwright.color.match.objective import Objective
from pourwright.color.match.search import Found

_LITTLE = 2.0


def why_not(counter: Counter, objective: Objective, found: Found) -> str:
    """What the best recipe without rounding is still too much or too little of, and what helps."""
    best = counter.labs(found.unrounded[None])[0, 0]
    if found.scores[0] - found.unrounded_score > _LITTLE:
        return (
            "whole drops are too coarse for this cup: make a bigger one, or let the strongest "
            "colorant down 1:10"
        )
    wanted = objective.labs[0]
    faults = [*_light(best, wanted), *_chroma(best, wanted), *_hue(best, wanted)]
    if not faults:
        faults = ["a little off in every way"]
    return f"the nearest this shelf comes is {', '.join(faults)}"


def _light(best: Array, wanted: Array) -> list[str]:
    off = float(best[0] - wanted[0])
    if abs(off) < _LITTLE:
        return []
    if off < 0:
        return ["too dark (less colorant, a thinner bait or a more opaque white would help)"]
    return ["too light (a stronger or darker colorant is missing)"]


def _chroma(best: Array, wanted: Array) -> list[str]:
    off = float(np.hypot(*best[1:]) - np.hypot(*wanted[1:]))
    if abs(off) < _LITTLE:
        return []
    return ["too dull (a cleaner colorant is missing)" if off < 0 else "too vivid"]


def _hue(best: Array, wanted: Array) -> list[str]:
    chroma = min(np.hypot(*best[1:]), np.hypot(*wanted[1:]))
    turn = np.arctan2(wanted[2], wanted[1]) - np.arctan2(best[2], best[1])
    turn = (turn + np.pi) % (2 * np.pi) - np.pi
    if 2 * chroma * abs(np.sin(turn / 2)) < _LITTLE:
        return []
    return [f"not {_name(wanted)} enough"]


def _name(lab: Array) -> str:
    """The nearest of eight hue words; hue angles of L*a*b*, from memory."""
    names = ("pink", "red", "orange", "yellow", "green", "teal", "blue", "violet")
    angles = np.radians([0, 35, 65, 95, 150, 200, 270, 320])
    off = np.angle(np.exp(1j * (angles - np.arctan2(lab[2], lab[1]))))
    return names[int(np.abs(off).argmin())]
