"""Cups cooked earlier in one oven, and what each of them taught."""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass

from pourwright.base.band import Band
from pourwright.base.belief import Belief
from pourwright.base.draws import Z90
from pourwright.base.field import number, parts, text
from pourwright.base.record import Record
from pourwright.heat.belief import carried, read_anew
from pourwright.heat.doubt import Doubt, judged
from pourwright.heat.history import Did, Step, timed
from pourwright.heat.learn import CUP, Fit
from pourwright.heat.next_input import READ_START_SPREAD_K, START_SPREAD_K
from pourwright.heat.oven import NAMES
from pourwright.heat.replay import Fill, usual_fill

NEW_TEST_LOG_SPREAD = 0.12
_DRIFT_DEVIATIONS = 2.5


@dataclass(frozen=True, slots=True, kw_only=True)
class CookedCup(Record):
    """One cup's fill and history; what nobody measured is typical."""

    plastic_g: float = number("Plastic in the cup at the start", low=20, high=3000)
    cup_g: float = number("Empty cup", low=20, high=3000, default=420)
    cup_diameter_mm: float = number("Inside diameter of the cup", low=30, high=250, default=89)
    start_c: float | None = number("Plastic at the start", low=-5, high=200, default=None)
    ambient_c: float | None = number("Room", low=-10, high=45, default=None)
    history: tuple[Step, ...] = parts("What was done, in order", most=400)
    thermometer: str = text("Which thermometer read it", most=64, default="")

    def fill(self) -> Fill:
        """The cup before its first step."""
        return usual_fill(
            plastic_g=self.plastic_g,
            start_c=self.start_c,
            ambient_c=self.ambient_c,
            glass_g=self.cup_g,
            diameter_mm=self.cup_diameter_mm,
        )

    @property
    def taught(self) -> bool:
        """Whether it was heated and read at all."""
        did = {s.did for s in self.history}
        return Did.HEATED in did and Did.READ in did


@dataclass(frozen=True, slots=True)
class Lesson:
    """What one cup taught: the belief after it, this cup's own effective power, and doubts.

    `power_w` holds for half a kilogram; `before_w` is what was believed of it before the cup;
    `drifted` where the two disagree by more than chance; `missed_k` is by how much the last reading
    lies above the fit.
    """

    belief: Belief
    power_w: Band
    before_w: Band
    drifted: bool
    doubts: tuple[Doubt, ...]
    missed_k: float

    @property
    def changed_share(self) -> float:
        """By which share the cup took up more than was believed before it."""
        return self.power_w.typical / self.before_w.typical - 1


def lessons(start: Belief, cups: tuple[CookedCup, ...]) -> tuple[Lesson, ...]:
    """One lesson for every cup that taught something, each from the belief of the one before.

    Where another thermometer was used than for the cup before, what was learned of that one is
    forgotten.
    """
    found: list[Lesson] = []
    taught = [c for c in cups if c.taught]
    for n, cup in enumerate(taught):
        before = carried(found[-1].belief) if n else start
        if n and cup.thermometer != taught[n - 1].thermometer:
            before = read_anew(before, start)
        found.append(_lesson(before, cup))
    return tuple(found)


def belief_after(start: Belief, cups: tuple[CookedCup, ...], *, thermometer: str = "") -> Belief:
    """The belief of an oven after the cups cooked in it, for a cup read with that thermometer."""
    learned = lessons(start, cups)
    if not learned:
        return start
    last = [c for c in cups if c.taught][-1].thermometer
    belief = learned[-1].belief
    return belief if last == thermometer else read_anew(belief, start)


@functools.lru_cache(maxsize=512)
def _lesson(before: Belief, cup: CookedCup) -> Lesson:
    """Kept, since the cups of the past stay as they were."""
    steps = timed(cup.history, cup.plastic_g)
    spread = START_SPREAD_K if cup.start_c is None else READ_START_SPREAD_K
    found = judged(before, cup.fill(), steps, start_spread_k=spread)
    own, own_spread = _own_power(found.fit)
    was, was_spread = before.mean[0], math.sqrt(before.covariance[0][0])
    apart = abs(own - was) / math.hypot(was_spread, 0.03)
    return Lesson(
        belief=found.lesson.oven(),
        power_w=_band(own, own_spread),
        before_w=_band(was, was_spread),
        drifted=apart > _DRIFT_DEVIATIONS,
        doubts=found.doubts,
        missed_k=found.fit.misses_k[-1] if found.fit.misses_k else 0.0,
    )


def why_test_due(belief: Belief, learned: tuple[Lesson, ...]) -> str | None:
    """Why a new water test would pay, or None."""
    if math.sqrt(belief.covariance[0][0]) > NEW_TEST_LOG_SPREAD:
        return "the oven's power is known to no better than one part in eight"
    if len(learned) >= 2 and learned[-1].drifted and learned[-2].drifted:
        return "two cups in a row disagree with what was known: the oven has changed"
    return None


def _own_power(fit: Fit) -> tuple[float, float]:
    """Logarithm of this cup's effective power and its spread."""
    at = len(NAMES)
    mean, cov = fit.joint.mean, fit.joint.covariance
    variance = cov[0][0] + cov[at][at] + 2 * cov[0][at]
    return mean[0] + mean[fit.joint.names.index(CUP)], math.sqrt(variance)


def _band(log_w: float, spread: float) -> Band:
    return Band(math.exp(log_w - Z90 * spread), math.exp(log_w), math.exp(log_w + Z90 * spread))
