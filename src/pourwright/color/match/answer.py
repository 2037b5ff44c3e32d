"""The recipe for a target from this shelf, in whole drops, spoons and steps of the scale."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.calc import calculation
from pourwright.base.draws import Array
from pourwright.base.field import out
from pourwright.base.source import PRACTICE, estimate, published
from pourwright.color.dose import Measured
from pourwright.color.lab import Lab, as_lab, screen_of
from pourwright.color.match import worth
from pourwright.color.match.bottle import Bottle
from pourwright.color.match.counter import Counter
from pourwright.color.match.example import EXAMPLE
from pourwright.color.match.objective import Objective
from pourwright.color.match.proof import prove
from pourwright.color.match.quantum import Ease, eased
from pourwright.color.match.question import MatchInput, objective_of, usable
from pourwright.color.match.search import Found, search
from pourwright.color.match.steps import Bench, counter_of, in_words
from pourwright.color.match.why import why_not
from pourwright.spectrum.light import WEIGHTS, Light

# Beyond this nobody calls it the same color; common practice, no source.
FAR = 4.0
_POURED = 60


@dataclass(frozen=True, slots=True)
class MatchDose:
    """One bottle of a recipe, for the whole cup."""

    name: str = out("Bottle")
    steps: int = out("Drops, smallest spoons or steps of the scale")
    words: str = out("What to measure out")
    measure: str = out("Measured in")
    grams: float = out("Grams in the cup")
    per_100g: float = out("Amount to 100 g, in its measure")


@dataclass(frozen=True, slots=True)
class LightMiss:
    """How near under one light."""

    light: str = out("Light")
    delta_e00: float = out("CIEDE2000 to the target")


@dataclass(frozen=True, slots=True)
class MatchRecipe:
    """One recipe."""

    doses: tuple[MatchDose, ...] = out("What goes in")
    delta_e00: float = out("CIEDE2000 to the target in daylight")
    by_light: tuple[LightMiss, ...] = out("Under each light")
    score: float = out("What recipes are ranked by")
    poured_typical: float = out("Median CIEDE2000 of pours whose drops scatter by 7 %")
    poured_high: float = out("90th percentile of the same")
    one_step: float = out("The most that one step more or less shifts it, CIEDE2000")
    one_step_of: str = out("Of which bottle")
    cost_money: float = out("What its colorants cost")
    lab: Lab = out("Its color in daylight")
    srgb_hex: str = out("The same for a screen")
    in_gamut: bool = out("Whether a screen can show it")


@dataclass(frozen=True, slots=True)
class MatchAnswer:
    """Recipes for a target."""

    closest: tuple[MatchRecipe, ...] = out("Nearest first")
    robust: MatchRecipe = out("Nearest on average, as drops scatter")
    unrounded: float = out("CIEDE2000 of the best recipe without whole steps")
    target_lab: Lab = out("The target in daylight")
    target_hex: str = out("The target for a screen")
    target_in_gamut: bool = out("Whether a screen can show the target")
    proven: bool = out("Whether no recipe of whole steps within the limits is nearer, by the model")
    gap: float | None = out("How much nearer another could be at most; null where nobody looked")
    why_none_is_close: str = out("Why, where none is; else empty")
    eased: tuple[Ease, ...] = out("What would bring it nearer where whole drops are what hurts")
    notes: tuple[str, ...] = out("What was assumed, what was left out")


@calculation(
    "color.match",
    purpose="the recipe for a target from this shelf, in whole drops and spoons",
    sources=(
        published("Sharma, Wu and Dalal, Color Res. Appl. 30 (2005) 21: CIEDE2000"),
        estimate("radiative transfer in a slab; drops scatter by 7 %"),
        PRACTICE,
    ),
    example=EXAMPLE,
)
def match(inputs: MatchInput) -> MatchAnswer:
    """Ranked recipes, found at once; with `proof`, the best is proven or its gap is stated.

    A proof is about the model, not about the pour.
    Raises: NoAnswer where nothing on the shelf mixes, or a proof is asked for around flake.
    """
    bench, bottles = inputs.bench(), usable(inputs.shelf)
    lights = _held(inputs)
    weights = [WEIGHTS[light] for light in lights]
    counter = counter_of(bottles, bench, weights)
    objective = objective_of(inputs, weights)
    found = search(counter, objective)
    ranked = Ranked(found.counts, False, None)
    if inputs.proof:
        ranked = proven(counter, objective, found)
    listed = _listed(ranked.counts, inputs.recipes)
    recipes = [_recipe(counter, objective, bottles, c, inputs, lights) for c in listed]
    sturdy = _sturdiest(counter, objective, ranked.counts, inputs.seed)
    screen, inside = screen_of(objective.labs[0])
    eases = eased(bottles, bench, objective, found, counter)
    return MatchAnswer(
        tuple(recipes),
        _recipe(counter, objective, bottles, sturdy, inputs, lights),
        found.unrounded_score,
        as_lab(objective.labs[0]),
        screen,
        inside,
        ranked.closed,
        ranked.gap,
        why_not(counter, objective, found) if recipes[0].delta_e00 > FAR else "",
        eases,
        tuple(_notes(inputs, recipes[0])),
    )


@dataclass(frozen=True, slots=True, eq=False)
class Ranked:
    """Recipes with what is known of the best."""

    counts: Array
    closed: bool
    gap: float | None


def proven(counter: Counter, objective: Objective, found: Found) -> Ranked:
    """The recipes, the best of them proven or bettered, or as near to a proof as the work came.

    Under further lights the bound is daylight's alone, so that a gap may be left.
    Raises: NoAnswer where flakes lie in the mixtures.
    """
    best = float(found.scores[0])
    proof = prove(counter, objective, best)
    counts = found.counts
    if proof.counts is not None:
        counts = np.concatenate([proof.counts[None], counts])
    return Ranked(counts, proof.closed, proof.score - proof.lower_bound)


def _listed(counts: Array, most: int) -> list[Array]:
    """The best recipe of each set of bottles first, then the next best, without near twins."""
    found: list[Array] = []
    seen: set[bytes] = set()
    for recipe in counts:
        key = (recipe > 0).tobytes()
        if key not in seen:
            seen.add(key)
            found.append(recipe)
    return found[:most]


def _sturdiest(counter: Counter, objective: Objective, counts: Array, seed: int) -> Array:
    few = counts[:_POURED]
    mean = worth.pours(counter, objective, few, seed).mean(axis=1)
    return np.asarray(few[int(mean.argmin())])


def _recipe(
    counter: Counter,
    objective: Objective,
    bottles: Sequence[Bottle],
    counts: Array,
    inputs: MatchInput,
    lights: Sequence[Light],
) -> MatchRecipe:
    bench = inputs.bench()
    misses = objective.differences(counter, counts[None])[:, 0]
    poured = worth.pours(counter, objective, counts[None], inputs.seed)[0]
    step, of = worth.one_step(counter, counts)
    lab = counter.labs(counts[None])[0, 0]
    screen, inside = screen_of(lab)
    return MatchRecipe(
        tuple(
            _dose(bottles[j], round(float(counts[j])), bench)
            for j in map(int, np.flatnonzero(counts > 0.5))
        ),
        float(misses[0]),
        tuple(LightMiss(li.value, float(m)) for li, m in zip(lights, misses, strict=True)),
        float(objective.scores(counter, counts[None])[0]),
        float(np.median(poured)),
        float(np.quantile(poured, 0.9)),
        step,
        bottles[of].name if of >= 0 else "",
        float(counter.money(counts[None])[0]),
        as_lab(lab),
        screen,
        inside,
    )


def _dose(bottle: Bottle, steps: int, bench: Bench) -> MatchDose:
    grams = steps * bench.step_g(bottle)
    unit = {
        Measured.DROPS: 1.0,
        Measured.GRAMS: bench.scale_step_g,
        Measured.SPOONS: min(bench.spoons_tsp),
    }[bottle.measure]
    return MatchDose(
        bottle.name, steps, in_words(bottle, steps, bench), bottle.measure.value, grams,
        steps * unit * 100 / bench.plastic_g,
    )  # fmt: skip


def _held(inputs: MatchInput) -> tuple[Light, ...]:
    """Daylight, and the other lights where the target's color there can be told."""
    known = bool(inputs.lights) and inputs.target.spectrum() is not None
    return (Light.D65, *inputs.lights) if known else (Light.D65,)


def _notes(inputs: MatchInput, best: MatchRecipe) -> Iterable[str]:
    glowing = [b.name for b in inputs.shelf if not b.colorant.mixes]
    if glowing:
        yield f"left out, for they glow and no mixture of theirs is forecast: {', '.join(glowing)}"
    guessed = [b.name for b in inputs.shelf if b.colorant.mixes and not b.colorant.measured]
    if guessed:
        yield (
            f"uncalibrated: {', '.join(guessed)} go by the color entered, and a mixture may be off "
            "by 5 to 10 CIEDE2000; pucks over black and white narrow it"
        )
    if inputs.lights and len(_held(inputs)) == 1:
        yield "no surface shows the target, so it is held in daylight alone"
    elif inputs.lights and not inputs.target.reflectance:
        yield "other lights are held by a smooth stand-in for the target's spectrum"
    loose = [b.name for b in inputs.shelf if b.measure is Measured.DROPS and b.drop_mass_g is None]
    if loose:
        yield f"a drop is taken as 0.035 g for {', '.join(loose)}: weigh 20 drops"
    if best.one_step > 2:
        yield f"one drop of {best.one_step_of} more or less shifts it by {best.one_step:.1f}"
