"""Pucks that cannot be right, and what is likely wrong with them."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.color.fit.forward import all_readings, deviations
from pourwright.color.fit.joint import Joint, predicts
from pourwright.color.fit.prior import Normal
from pourwright.color.fit.reading import Puck

# Root mean square misfit, in the instrument's deviations, that honest pucks hardly reach; estimate.
STRANGE = 3.0
_SWAP_GAIN = 0.35


@dataclass(frozen=True, slots=True)
class Suspect:
    """A puck whose readings do not fit, and why perhaps."""

    puck: str
    misfit: float
    why: str


def suspects(joint: Joint, pucks: Sequence[Puck]) -> tuple[Suspect, ...]:
    """Pucks that contradict the others, worst first; two that were swapped are named together."""
    misfit = dict.fromkeys((p.name for p in pucks), 0.0)
    for (puck, _), size in zip(all_readings(pucks), joint.misfits, strict=True):
        misfit[puck.name] = max(misfit[puck.name], size)
    strange = sorted((p for p in pucks if misfit[p.name] > STRANGE), key=lambda p: -misfit[p.name])
    return tuple(Suspect(p.name, misfit[p.name], _reason(p, strange, joint.parts)) for p in strange)


def _reason(puck: Puck, strange: Sequence[Puck], parts: Sequence[Normal]) -> str:
    for other in strange:
        if other.name != puck.name and _swapped(puck, other, parts):
            return f"reads like {other.name}: were the two swapped?"
    if all(r.ground.mean() > 0.5 for r in puck.readings) or len(puck.readings) < 2:
        return "contradicts the other pucks: check its recipe, its thickness and its card"
    if _swapped_cards(puck, parts):
        return "reads as if its black and white cards were swapped"
    return "contradicts the other pucks: check its recipe and thickness, and read it again"


def _swapped(one: Puck, two: Puck, parts: Sequence[Normal]) -> bool:
    as_they_are = _off(one, one, parts) + _off(two, two, parts)
    changed = _off(one, two, parts) + _off(two, one, parts)
    return changed < _SWAP_GAIN * as_they_are


def _swapped_cards(puck: Puck, parts: Sequence[Normal]) -> bool:
    grounds = [r.ground for r in puck.readings][::-1]
    turned = tuple(
        dataclasses.replace(r, ground=g) for r, g in zip(puck.readings, grounds, strict=True)
    )
    other = dataclasses.replace(puck, readings=turned)
    return _off(other, other, parts) < _SWAP_GAIN * _off(puck, puck, parts)


def _off(recipe: Puck, read: Puck, parts: Sequence[Normal]) -> float:
    """Misfit of one puck's readings, were it poured by another's recipe."""
    total = 0.0
    for reading in read.readings:
        miss = (predicts(parts, recipe, reading) - reading.values) / deviations(reading)
        total += float(np.sqrt(np.mean(miss**2)))
    return total
