"""Which readings to doubt, and why."""

from __future__ import annotations

import functools
from dataclasses import dataclass

import numpy as np

from pourwright.base.belief import Belief
from pourwright.base.units import in_both
from pourwright.heat.cold_pair import FAR, Before, agree, settled
from pourwright.heat.history import HOTTEST_READ_C, Did, Step, other_unit_c
from pourwright.heat.learn import Fit, foreseen
from pourwright.heat.replay import Fill

# Where less is known than this, a reading is taken twice before anything is built on it.
WIDE_K = 5.0
LITTLE_TRUST = 0.4
# A fit so far from the belief before it rests on readings that nothing foresaw.
STRAINED = 9.0
_COLDER_THAN_ROOM_K = 4.0


@dataclass(frozen=True, slots=True)
class Doubt:
    """A reading that does not fit; `meant_c` is set where another unit would explain it."""

    number: int
    expected_c: float
    why: str
    meant_c: float | None


@dataclass(frozen=True, slots=True)
class Judged:
    """The fit over all readings, and those it all but leaves out.

    `new` is the doubt about the newest reading, as long as nothing was done after it; `lonely`
    says that it stands alone where little was known before it. `hotter` is set where readings that
    agree lie far below all else and no probe stands by them: the fit that does not take their word.
    """

    fit: Fit
    doubts: tuple[Doubt, ...]
    new: Doubt | None
    lonely: bool
    hotter: Fit | None

    @property
    def lesson(self) -> Fit:
        """What may be carried to the next cup: a power too low would overheat it."""
        return self.hotter or self.fit


def judged(belief: Belief, fill: Fill, steps: tuple[Step, ...], *, start_spread_k: float) -> Judged:
    """The fit, and the readings to doubt.

    Rests and draws since the last reading or burst say nothing of the oven, so that a cup that is
    only poured from is not fitted anew.
    """
    return _judged(belief, fill, telling(steps), start_spread_k)


def telling(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps up to the last that says anything of the oven: a burst, a reading, what was added.

    Only rests, stirs and draws follow it.
    """
    found = [i for i, s in enumerate(steps) if s.did in {Did.READ, Did.HEATED, Did.ADDED}]
    return steps[: found[-1] + 1] if found else ()


@functools.lru_cache(maxsize=64)
def _judged(
    belief: Belief, fill: Fill, steps: tuple[Step, ...], start_spread_k: float
) -> Judged:  # fmt: skip
    """The fit to steps of which the last one tells something.

    Two readings in a row that agree with each other are believed, however far off both are; see
    `hotter` of `Judged` for where that could hurt.
    """
    places = [i for i, s in enumerate(steps) if s.did is Did.READ]
    sure = _confirmed(steps, places)
    about, hotter = Before(belief, fill, start_spread_k), None
    fit = about.fitted(steps, sure)
    if fit.strain > STRAINED:
        found, hotter = settled(about, steps, sure)
        fit, sure = (fit, sure) if found == sure else (about.fitted(steps, found), found)
    doubts = tuple(
        _doubt(n, steps[place], fit.misses_k[n], fit.spreads_k[n], fill)
        for n, place in enumerate(places)
        if n not in sure and _odd(fit, n, steps[place], fill)
    )
    new, wide = None, False
    newest = len(places) - 1
    if places and places[-1] == len(steps) - 1 and newest not in sure:
        before = about.fitted(steps[:-1], sure)
        miss, spread = foreseen(before, fill, steps)
        wide = spread > WIDE_K
        if abs(miss) > FAR * spread or _below_room(steps[-1], fill, steps):
            new = _doubt(newest, steps[-1], miss, spread, fill)
            doubts = (*(d for d in doubts if d.number != newest), new)
        else:
            doubts = tuple(d for d in doubts if d.number != newest)
    return Judged(fit, doubts, new, wide, hotter)


def _odd(fit: Fit, n: int, step: Step, fill: Fill) -> bool:
    far = abs(fit.misses_k[n]) > FAR * fit.spreads_k[n]
    return (far and fit.trust[n] < LITTLE_TRUST) or _below_room(step, fill, (step,))


def _below_room(step: Step, fill: Fill, steps: tuple[Step, ...]) -> bool:
    heated = len(steps) == 1 or any(s.did is Did.HEATED for s in steps)
    coldest = min(fill.ambient_c, fill.start_c) - _COLDER_THAN_ROOM_K
    return heated and (step.read_c or 0.0) < coldest


def _confirmed(steps: tuple[Step, ...], places: list[int]) -> frozenset[int]:
    found: set[int] = set()
    for n in range(1, len(places)):
        between = steps[places[n - 1] + 1 : places[n]]
        still = all(s.did in {Did.STIRRED, Did.RESTED} for s in between)
        waited = sum(s.lasted_s for s in between)
        if still and waited < 90 and agree(steps[places[n]], steps[places[n - 1]]):
            found |= {n - 1, n}
    return frozenset(found)


def _doubt(n: int, step: Step, miss_k: float, spread_k: float, fill: Fill) -> Doubt:
    read = step.read_c or 0.0
    expected = read - miss_k
    meant = next(
        (
            other
            for other in other_unit_c(read)
            if abs(other - expected) < 2.5 * spread_k + 2 and other <= HOTTEST_READ_C
        ),
        None,
    )
    lies = f"reading {n + 1} of {in_both(read)} where about {in_both(expected)} was expected"
    if read < min(fill.ambient_c, fill.start_c) - _COLDER_THAN_ROOM_K:
        lies = f"{lies}, colder than the room"
    if meant is not None:
        why = f"{lies}: in the other unit it would be {in_both(meant)}"
    elif miss_k < 0:
        why = f"{lies}: aimed at the glass or the rim, a cooled skin, or a wrong time or weight"
    else:
        why = f"{lies}: a hot spot not stirred in, or a wrong time or weight"
    return Doubt(n, float(np.clip(expected, -50, 500)), why, meant)
