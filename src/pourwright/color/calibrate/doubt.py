"""Pucks that cannot be right, and what is likely wrong with them."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.color.fit.forward import all_readings, deviations
from pourwright.color.fit.joint import Joint, predicts
from pourwright.color.fit.learn import learn
from pourwright.color.fit.prior import Normal
from pourwright.color.fit.reading import Puck

# Root mean square misfit, in the instrument's deviations, that honest pucks hardly reach; estimate.
STRANGE = 3.0
# Two pucks were swapped if the other's recipe leaves this share of their misfit; estimate.
_SWAP_GAIN = 0.35
_ROUNDS = 4
# Pucks this near the worst misfit are set aside with it; estimate.
_NEAR_WORST = 0.4
_MOST = (
    "more than half of the pucks do not fit together: were they poured on the card or laid on it, "
    "and is the thickness right?"
)


@dataclass(frozen=True, slots=True)
class Suspect:
    """A puck whose readings do not fit, and why perhaps."""

    puck: str
    misfit: float
    why: str


def suspects(joint: Joint, pucks: Sequence[Puck], colorants: int) -> tuple[Suspect, ...]:
    """Pucks that contradict the others, worst first; two that were swapped are named together.

    The worst are set aside and judged by what the rest teaches without them, for one wrong puck
    bends the constants that its neighbors are judged by.
    """
    aside: list[Puck] = []
    left = list(pucks)
    for _ in range(_ROUNDS):
        misfit = _misfits(joint, left)
        worst = max(misfit.values(), default=0.0)
        if worst <= STRANGE:
            break
        aside += [p for p in left if misfit[p.name] > max(STRANGE, _NEAR_WORST * worst)]
        left = [p for p in left if p not in aside]
        if len(aside) > len(pucks) / 2:
            return tuple(Suspect(p.name, misfit.get(p.name, worst), _MOST) for p in aside)
        joint = learn(colorants, left)
    alone = {p.name: _off(p, p, joint.parts) / len(p.readings) for p in aside}
    guilty = _worst_first([p for p in aside if alone[p.name] > STRANGE], alone)
    return tuple(Suspect(p.name, alone[p.name], _reason(p, guilty, joint.parts)) for p in guilty)


def _worst_first(pucks: Sequence[Puck], misfit: Mapping[str, float]) -> list[Puck]:
    return sorted(pucks, key=lambda p: (-misfit[p.name], p.name))


def _misfits(joint: Joint, pucks: Sequence[Puck]) -> dict[str, float]:
    """The worst reading of each puck."""
    found = dict.fromkeys((p.name for p in pucks), 0.0)
    for (puck, _), size in zip(all_readings(pucks), joint.misfits, strict=True):
        found[puck.name] = max(found[puck.name], size)
    return found


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
