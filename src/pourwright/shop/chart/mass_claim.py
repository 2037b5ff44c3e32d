"""What may be claimed of weights against their limits, and what may not."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.shop.chart.capability import ENOUGH, Capability, capability, normal_chance
from pourwright.shop.chart.constant import RangeLaw
from pourwright.shop.chart.mass_input import MassInput

# Fewer weights than this have no shape to speak of.
_LEAST_SHAPE = 8
_DOUBTFUL = 0.05
# A scale that steps by more than this share of the spread hides the shape (estimate).
_COARSE_STEP = 1 / 3


@dataclass(frozen=True, slots=True)
class Claim:
    """Capabilities, the doubt about their shape, and what to say of both."""

    within: Capability | None
    overall: Capability | None
    normal_chance: float | None
    notes: tuple[str, ...]


def claim_of(
    inputs: MassInput, weights: Array, sigma: float | None, law: RangeLaw, *, drifting: bool
) -> Claim:
    """The claim; `sigma` is the spread within lots, none where there are too few lots to say."""
    chance = _shape(weights)
    if inputs.low_g is None and inputs.high_g is None:
        return Claim(None, None, chance, ())
    if inputs.mean_of > 1:
        why = (
            "No capability: a mean of several baits hides how single ones differ. "
            "Weigh five one by one."
        )
        return Claim(None, None, chance, (why,))
    spread = float(weights.std(ddof=1)) if weights.size > 1 else 0.0
    if sigma is None or not spread:
        return Claim(None, None, chance, ("No capability: too few to say.",))
    mean, count = float(weights.mean()), weights.size
    within = capability(
        mean=mean, sigma=sigma, low=inputs.low_g, high=inputs.high_g,
        freedom=_freedom(weights, law), count=count,
    )  # fmt: skip
    overall = capability(
        mean=mean, sigma=spread, low=inputs.low_g, high=inputs.high_g, freedom=count - 1,
        count=count,
    )  # fmt: skip
    coarse = ("The scale steps too coarsely to show the shape.",) if _coarse(weights) else ()
    notes = (*_notes(count, chance, drifting=drifting), *coarse)
    return Claim(within, overall, chance, notes)


def _freedom(weights: Array, law: RangeLaw) -> float:
    """Degrees of freedom of a spread taken from ranges: a mean of so many spreads as one over 2f.

    Steps between single weights overlap, so that they count for somewhat less than they are.
    """
    lots, size = weights.shape
    ranges: float = lots if size > 1 else max((lots - 1) / 1.5, 1)
    return float(ranges * (law.d2 / law.d3) ** 2 / 2)


def _shape(weights: Array) -> float | None:
    """How normal the weights look, each against its own lot where lots have several."""
    several = weights.shape[1] > 1
    apart = weights - weights.mean(axis=1, keepdims=True) if several else weights
    values = np.ravel(apart)
    if values.size < _LEAST_SHAPE or not values.std() or _coarse(weights):
        return None
    return normal_chance(values)


def _coarse(weights: Array) -> bool:
    steps = np.diff(np.unique(weights.round(6)))
    return bool(steps.size) and float(steps.min()) > _COARSE_STEP * float(weights.std())


def _notes(count: int, chance: float | None, *, drifting: bool) -> list[str]:
    notes = []
    if drifting:
        notes.append("Something stands out: a capability says little until the weights are steady.")
    if count < ENOUGH:
        notes.append(
            f"Capability from {count} weights, where some {ENOUGH} are wanted: go by its range."
        )
    if chance is not None and chance < _DOUBTFUL:
        notes.append(
            "The weights do not look normal: how many lie outside cannot be told from a "
            "capability. Count them instead."
        )
    return notes
