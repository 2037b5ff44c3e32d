"""Readings that agree with each other, far colder than the cup can well be.

A slip of the unit or of the aim agrees with itself. Believed, it would heat a hot cup on, so the
cup that everything else speaks of is kept in view until a probe, or later readings, settle it.
"""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.belief import Belief
from pourwright.heat.history import Did, Instrument, Step
from pourwright.heat.learn import Fit, fitted, foreseen
from pourwright.heat.replay import Fill

FAR = 3.3
_AGREE_K = 4.5


@dataclass(frozen=True, slots=True)
class Before:
    """What is known of a cup before any reading."""

    belief: Belief
    fill: Fill
    start_spread_k: float

    def fitted(self, steps: tuple[Step, ...], sure: frozenset[int]) -> Fit:
        """The fit over the readings of some steps."""
        return fitted(self.belief, self.fill, steps, start_spread_k=self.start_spread_k, sure=sure)


def settled(
    about: Before, steps: tuple[Step, ...], sure: frozenset[int]
) -> tuple[frozenset[int], Fit | None]:
    """The readings that stay sure, and the fit of the hotter cup where that is still open.

    It leaves out the first pair that is far too cold and all its gun read after that. A pair that
    it foresees settles for it, another one with a probe in it against it.
    """
    places = [i for i, s in enumerate(steps) if s.did is Did.READ]
    for n in sorted(sure):
        before = frozenset(i for i in sure if i < n)
        past = steps[: places[n]]
        if _apart(about.fitted(past, before), about.fill, steps[: places[n] + 1]) >= -FAR:
            continue
        after = sorted(i for i in sure if i >= n)
        later = tuple(s for s in steps[places[n] :] if s.did is not Did.READ or _probed(s))
        hotter = about.fitted((*past, *later), before)
        for i in after:
            if abs(_apart(hotter, about.fill, steps[: places[i] + 1])) < FAR:
                return sure - {k for k in after if k < i}, None
            if _probed(steps[places[i]]):
                others = {
                    k for k in after if k < i and not agree(steps[places[k]], steps[places[i]])
                }
                return sure - others, None
        return sure, hotter
    return sure, None


def agree(one: Step, other: Step) -> bool:
    """Whether two readings of one cup lie as near as readings of it would."""
    return abs((one.read_c or 0.0) - (other.read_c or 0.0)) < _AGREE_K


def _apart(fit: Fit, fill: Fill, steps: tuple[Step, ...]) -> float:
    miss, spread = foreseen(fit, fill, steps)
    return miss / spread


def _probed(step: Step) -> bool:
    return step.instrument is Instrument.PROBE
