"""The recipe for a target from this shelf, in whole drops, spoons and steps of the scale."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.calc import calculation
from pourwright.base.draws import Array
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.field import flag, number, out, part, parts, pick
from pourwright.base.record import Record
from pourwright.base.source import PRACTICE, estimate, published
from pourwright.color.dose import Dose, Measured
from pourwright.color.ground import GROUND, Backing
from pourwright.color.lab import Lab
from pourwright.color.match import worth
from pourwright.color.match.bottle import Bottle
from pourwright.color.match.counter import Counter
from pourwright.color.match.example import EXAMPLE
from pourwright.color.match.objective import Objective
from pourwright.color.match.proof import prove
from pourwright.color.match.quantum import Ease, eased
from pourwright.color.match.search import Found, search
from pourwright.color.match.steps import Bench, counter_of, in_words
from pourwright.color.match.target import Target
from pourwright.color.match.why import why_not
from pourwright.color.plastic import RawPlastic
from pourwright.color.slab import Placing
from pourwright.color.spoon import KITCHEN_SPOONS
from pourwright.spectrum.color_space import hex_of, srgb_of, xyz_of_lab
from pourwright.spectrum.light import WEIGHTS, Light, white_xyz

# Beyond this nobody calls it the same color; common practice, no source.
FAR = 4.0
_POURED = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class MatchInput(Record):
    """A target, a shelf and a cup."""

    target: Target = part("The color wanted, at this thickness and over this ground")
    shelf: tuple[Bottle, ...] = parts("Colorants to choose from", least=1, most=40)
    fixed: tuple[Dose, ...] = parts(
        "In it anyway, for 100 g: flake, salt, hollow glass, remelt", most=8
    )
    plastic_g: float = number("Plastic in the cup", low=5, high=20_000, default=100)
    plastic: RawPlastic = part("The plastic without color", default=RawPlastic())
    thick_mm: float = number("Thickness", low=0.2, high=60, default=10)
    backing: Backing = pick("Ground behind it", default=Backing.WHITE)
    ground_share: float | None = number(
        "Reflectance of another ground, 0 to 1", low=0, high=1, default=None
    )
    placing: Placing = pick("How it lies", default=Placing.CONTACT)
    lights: tuple[Light, ...] = parts(
        "Other lights it should hold under; left out: daylight alone", most=3
    )
    most_colorants: int = number("Colorants in a recipe at most", low=1, high=5, default=4)
    most_drops: int = number("Drops or steps in a recipe at most", low=1, high=400, default=120)
    most_cost_money: float | None = number("Cost at most", low=0, high=50_000, default=None)
    spoon_sizes_tsp: tuple[float, ...] = parts(
        "Your spoons; left out: 1, 1/2, 1/4 and 1/8 tsp", most=8, low=0.01, high=48
    )
    scale_step_g: float = number("Smallest step of the scale", low=0.001, high=10, default=0.1)
    recipes: int = number("How many recipes to list", low=1, high=20, default=5)
    proof: bool = flag("Prove the best one, which takes a job of seconds to minutes")
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a ground without its reflectance, daylight twice and bottles of one name."""
        if (self.backing is Backing.OTHER) != (self.ground_share is not None):
            raise BadInput(
                "ground_share", self.ground_share, "goes with the ground 'other', and only there"
            )
        if Light.D65 in self.lights:
            raise BadInput("lights", "D65", "daylight is always held; name the others")
        names = [b.name for b in self.shelf]
        if len(set(names)) != len(names):
            raise BadInput("shelf", names, "two bottles share a name")

    def bench(self) -> Bench:
        """The cup and the view."""
        return Bench(
            plastic_g=self.plastic_g, plastic=self.plastic, fixed=self.fixed,
            thick_mm=self.thick_mm,
            ground=GROUND[self.backing] if self.ground_share is None else self.ground_share,
            placing=self.placing, spoons_tsp=self.spoon_sizes_tsp or KITCHEN_SPOONS,
            scale_step_g=self.scale_step_g, most_steps=self.most_drops,
        )  # fmt: skip


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
    lights = (Light.D65, *inputs.lights)
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
    screen, inside = srgb_of(xyz_of_lab(objective.labs[0], white_xyz()))
    eases = eased(bottles, bench, objective, found, counter)
    return MatchAnswer(
        tuple(recipes),
        _recipe(counter, objective, bottles, sturdy, inputs, lights),
        found.unrounded_score,
        _as_lab(objective.labs[0]),
        hex_of(screen),
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


def usable(shelf: Sequence[Bottle]) -> tuple[Bottle, ...]:
    """The bottles that mix.

    Raises: NoAnswer where none does.
    """
    found = tuple(b for b in shelf if b.colorant.mixes)
    if not found:
        raise NoAnswer("every bottle is fluorescent, and no mixture of those is forecast")
    return found


def objective_of(inputs: MatchInput, weights: Sequence[Array]) -> Objective:
    """The target with the limits on a recipe."""
    most = np.inf if inputs.most_cost_money is None else inputs.most_cost_money
    return Objective(inputs.target.labs(weights), inputs.most_colorants, inputs.most_drops, most)


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
    screen, inside = srgb_of(xyz_of_lab(lab, white_xyz()))
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
        _as_lab(lab),
        hex_of(screen),
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


def _as_lab(lab: Array) -> Lab:
    light, a, b = (float(v) for v in lab)
    return Lab(lightness=min(max(light, 0.0), 100.0), a=a, b=b)


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
    if inputs.lights and not inputs.target.reflectance:
        yield "other lights are held by a smooth stand-in for the target's spectrum"
    loose = [b.name for b in inputs.shelf if b.measure is Measured.DROPS and b.drop_mass_g is None]
    if loose:
        yield f"a drop is taken as 0.035 g for {', '.join(loose)}: weigh 20 drops"
    if best.one_step > 2:
        yield f"one drop of {best.one_step_of} more or less shifts it by {best.one_step:.1f}"
