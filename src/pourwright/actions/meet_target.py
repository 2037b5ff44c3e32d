"""Find a recipe for a target, prove it, and say what to add to a hot cup."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from pourwright.actions.color_look import Trial
from pourwright.actions.port import Bench, JobState, World
from pourwright.actions.run_job import start_job
from pourwright.actions.shelf_color import color_shelf
from pourwright.base.errors import NoAnswer
from pourwright.base.record import to_json
from pourwright.color.correct.answer import CorrectAnswer, correct
from pourwright.color.correct.question import CorrectInput, Drip, InCup
from pourwright.color.dose import Dose as ColorDose
from pourwright.color.dose import Measured as Counted
from pourwright.color.lab import Lab, as_lab
from pourwright.color.match.answer import MatchAnswer, match
from pourwright.color.match.question import MatchInput
from pourwright.color.match.target import Target
from pourwright.color.typical import typical
from pourwright.spectrum.light import Light

# More than anybody likes to count into one cup; estimate.
_MOST_DROPS = 60


def match_input(bench: Bench, trial: Trial) -> MatchInput:
    """A target with this shelf and cup; what is not counted out stays in the cup.

    Raises: NoAnswer without a target or without a colorant on the shelf.
    """
    if trial.target is None:
        raise NoAnswer("no target yet: type L*a*b*, pick a screen color or tap it in a photo")
    shelf = color_shelf(bench)
    bottles = shelf.bottles()
    if not bottles:
        raise NoAnswer("no colorant on the shelf yet: add one with its color")
    fixed = tuple(
        dose for d in trial.doses if d.material not in bottles and (dose := shelf.dose(d)).colorant
    )
    return MatchInput(
        target=Target(lab=trial.target),
        shelf=tuple(bottles.values()),
        fixed=fixed,
        plastic_g=trial.cup_g,
        plastic=shelf.plastic(trial.plastic),
        thick_mm=trial.thick_mm,
        lights=tuple(light for light in Light if light is not Light.D65),
        most_drops=_MOST_DROPS,
    )


def match_color(world: World, trial: Trial) -> tuple[MatchAnswer, Mapping[str, str]]:
    """Recipes for the trial's target, and the ids of the bottles by name; a second at most.

    The store is free while the search runs. Raises: as `match_input`.
    """
    with world.bench() as bench:
        wanted = match_input(bench, trial)
        named = {b.name: key for key, b in color_shelf(bench).bottles().items()}
    return match(wanted), named


def prove_match(world: World, trial: Trial) -> JobState:
    """Begin the proof, in daylight, of the best recipe. Raises: as `match_input`."""
    with world.bench() as bench:
        wanted = match_input(bench, trial)
    return start_job(world, match.name, to_json(replace(wanted, lights=(), proof=True)))


def correct_cup(world: World, trial: Trial, drip: Drip) -> CorrectAnswer:
    """What to add to a cup that holds the trial's recipe, after its drip was read.

    The store is free while the fit runs.
    Raises: NoAnswer without a target, or for a cup that glows.
    """
    with world.bench() as bench:
        shelf = color_shelf(bench)
        bottles = shelf.bottles()
        counted = [shelf.dose(d) for d in trial.doses if d.material in bottles]
        wanted = match_input(bench, trial)
    glowing = [d.name for d in counted if d.colorant and not d.colorant.mixes]
    if glowing:
        raise NoAnswer(f"no mixture with {', '.join(glowing)} is forecast, for it is fluorescent")
    in_cup = tuple(_in_cup(counted, trial.cup_g))
    return correct(CorrectInput(match=wanted, in_cup=in_cup, drip=drip))


def screen_lab(color_hex: str) -> Lab:
    """A screen color as L*a*b* in daylight. Raises: BadInput."""
    return as_lab(Target(color_hex=color_hex).daylight())


def _in_cup(doses: Iterable[ColorDose], cup_g: float) -> Iterable[InCup]:
    """What was counted into the cup, a bottle named twice as one."""
    found: dict[str, InCup] = {}
    for dose in doses:
        amount = dose.per_100g * cup_g / 100
        drops = amount if dose.measure is Counted.DROPS else None
        item = InCup(
            name=dose.name, grams=float(amount * dose.unit_g(typical(dose))[0]), drops=drops
        )
        before = found.get(dose.name)
        found[dose.name] = item if before is None else _together(before, item)
    return found.values()


def _together(one: InCup, other: InCup) -> InCup:
    drops = (one.drops or 0.0) + (other.drops or 0.0)
    return replace(one, grams=one.grams + other.grams, drops=drops or None)
