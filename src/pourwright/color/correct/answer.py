"""What to add to this hot cup so that it lands on the target."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array
from pourwright.base.field import out
from pourwright.base.source import PRACTICE, estimate
from pourwright.color.correct.believed import of_colorant, of_plastic
from pourwright.color.correct.cup import DRIP, Cup, most_likely, possible, steps_of
from pourwright.color.correct.example import EXAMPLE
from pourwright.color.correct.question import CorrectInput, drip_puck
from pourwright.color.fit.joint import Joint, fit, predicts
from pourwright.color.fit.prior import Normal
from pourwright.color.fit.reading import Puck
from pourwright.color.lab import lab_read
from pourwright.color.layer import mixture
from pourwright.color.match.bottle import Bottle
from pourwright.color.match.counter import Counter
from pourwright.color.match.objective import Objective
from pourwright.color.match.question import objective_of, usable
from pourwright.color.match.search import search
from pourwright.color.match.steps import Bench, counter_of, in_words
from pourwright.spectrum.difference import delta_e00
from pourwright.spectrum.light import BANDS, WEIGHTS, Light

# Near enough to pour: the least that most people see side by side; common practice, no source.
NEAR = 1.0
# A little nearer is not worth another bottle in the cup.
_WORTH = 0.3
# Another bottle is as much of a bother as so many drops; estimate.
_BOTTLE_STEPS = 3
# Beyond this a cup is started over, if a new one halves it; common practice, no source.
_HOPELESS = 3.0
_DRAWS = 40


@dataclass(frozen=True, slots=True)
class Addition:
    """One bottle to add."""

    name: str = out("Bottle")
    steps: int = out("Drops, smallest spoons or steps of the scale")
    words: str = out("What to measure out")
    grams: float = out("Grams")


@dataclass(frozen=True, slots=True)
class CorrectAnswer:
    """What to do with the cup."""

    advice: str = out("pour, add or start over")
    words: str = out("The same with its reason")
    additions: tuple[Addition, ...] = out("What to add; empty: nothing")
    now: Band = out("CIEDE2000 between target and bait as the cup is")
    then: Band = out("The same after the additions")
    surprise: float = out("CIEDE2000 between the drip as expected and as read, the largest")
    notes: tuple[str, ...] = out("What was assumed")


@calculation(
    "color.correct",
    purpose="what to add to this hot cup so that it lands on the target",
    sources=(
        estimate("the drip taken up into what the pucks taught, by Gauss and Newton"),
        PRACTICE,
    ),
    example=EXAMPLE,
)
def correct(inputs: CorrectInput) -> CorrectAnswer:
    """The smallest addition that lands on the target, or the word to start over.

    Drops cannot be taken out again. Doses are counted, or weighed by the bottle's loss; a hot cup
    is never weighed.
    """
    bench, bottles = inputs.match.bench(), usable(inputs.match.shelf)
    drip = drip_puck(inputs, bottles)
    before = [of_plastic(bench.plastic), *(of_colorant(b.colorant) for b in bottles)]
    joint = fit(before, [drip])
    weights = [WEIGHTS[Light.D65]]
    objective = _daylight(objective_of(inputs.match, weights))
    plain = counter_of(bottles, bench, weights)
    counter = _counter(plain, most_likely(joint, drip), bottles, bench)
    best = _smallest(counter, objective)
    cups = [
        _counter(plain, c, bottles, bench) for c in possible(joint, drip, _DRAWS, inputs.match.seed)
    ]
    now, then = (_band(counter, cups, objective, c) for c in (np.zeros_like(best), best))
    afresh = 0.0
    if min(now.typical, then.typical) > NEAR:
        afresh = _afresh(plain, joint, bottles, bench, objective)
    advice, words = _advice(now, then, best, afresh)
    return CorrectAnswer(
        advice,
        words,
        tuple(_additions(best, bottles, bench)) if advice == "add" else (),
        now,
        then if advice == "add" else now,
        _surprise(before, drip),
        tuple(_notes(inputs)),
    )


def _daylight(objective: Objective) -> Objective:
    return dataclasses.replace(objective, labs=objective.labs[:1])


def _counter(plain: Counter, cup: Cup, bottles: tuple[Bottle, ...], bench: Bench) -> Counter:
    """Steps on top of what is in the cup; flake and salt stay as they are."""
    shares = [bench.step_g(b) * 100 / bench.plastic_g for b in bottles]
    absorb, scatter = steps_of(cup, shares)
    extra = _fixed(bench)
    return dataclasses.replace(
        plain,
        step_absorb=absorb.astype(np.float32),
        step_scatter=scatter.astype(np.float32),
        base_absorb=(cup.absorb + extra[0]).astype(np.float32),
        base_scatter=(cup.scatter + extra[1]).astype(np.float32),
    )


def _fixed(bench: Bench) -> tuple[Array, Array]:
    nothing = np.zeros((1, BANDS)), np.zeros((1, BANDS))
    mixed = mixture(nothing, [d.stuff(d.typical()) for d in bench.fixed if d.colorant])
    return mixed.absorb_mm[0], mixed.scatter_mm[0]


def _smallest(counter: Counter, objective: Objective) -> Array:
    """The fewest steps that come within a little of the best there is."""
    found = search(counter, objective)
    nothing = np.zeros((1, counter.bottles))
    counts = np.concatenate([nothing, found.counts])
    scores = np.concatenate([objective.scores(counter, nothing), found.scores])
    enough = max(float(scores.min()) + _WORTH, 0.5 * NEAR)
    fit_ones = np.flatnonzero(scores <= enough)
    sizes = counts[fit_ones].sum(axis=1) + _BOTTLE_STEPS * (counts[fit_ones] > 0).sum(axis=1)
    return np.asarray(counts[fit_ones[int(sizes.argmin())]])


def _afresh(
    plain: Counter, joint: Joint, bottles: tuple[Bottle, ...], bench: Bench, objective: Objective
) -> float:
    """How near a new cup of the same shelf would come, after what the drip taught."""
    empty = most_likely(joint, Puck(DRIP, (), 1.0, ()))
    return float(search(_counter(plain, empty, bottles, bench), objective).scores[0])


def _band(counter: Counter, cups: list[Counter], objective: Objective, counts: Array) -> Band:
    typical = float(objective.scores(counter, counts[None])[0])
    spread = [float(objective.scores(c, counts[None])[0]) for c in cups]
    low, high = (float(np.quantile(spread, q)) for q in (0.05, 0.95))
    return Band(min(low, typical), typical, max(high, typical))


def _advice(now: Band, then: Band, best: Array, afresh: float) -> tuple[str, str]:
    left = min(now.typical, then.typical)
    if left > _HOPELESS and afresh < left / 2:
        return "start over", _over(left, afresh)
    if not best.any() or now.typical <= left + _WORTH:
        near = "it is there" if now.typical <= NEAR else "nothing on the shelf brings it nearer"
        return "pour", f"pour it: {near} ({now.typical:.1f})"
    return "add", f"from {now.typical:.1f} to about {then.typical:.1f}"


def _over(left: float, afresh: float) -> str:
    return (
        f"start over, and keep this cup for a darker color: what is in it cannot be taken out, and "
        f"additions leave {left:.1f} where a new cup comes to {afresh:.1f}"
    )


def _additions(best: Array, bottles: tuple[Bottle, ...], bench: Bench) -> Iterable[Addition]:
    for j in map(int, np.flatnonzero(best > 0.5)):
        steps = round(float(best[j]))
        bottle = bottles[j]
        yield Addition(
            bottle.name, steps, in_words(bottle, steps, bench), steps * bench.step_g(bottle)
        )


def _surprise(before: list[Normal], drip: Puck) -> float:
    """How far the drip is from what the recipe had promised."""
    return max(
        float(delta_e00(lab_read(predicts(before, drip, r)), lab_read(r.values)))
        for r in drip.readings
    )


def _notes(inputs: CorrectInput) -> Iterable[str]:
    yield (
        "stir, heat back to pouring heat and let another drip set before you pour; count drops, or "
        "weigh the bottle before and after: a hot cup is never put on the scale"
    )
    yield "a drip reads true once it has set and cooled; hot plastic is clearer than cold"
    if len(inputs.drip.readings) < 2:
        yield "one card only: a drip over black and white tells hiding from depth of color"
    if any(not b.colorant.measured for b in inputs.match.shelf):
        yield "uncalibrated bottles: the second addition will be surer than the first"
