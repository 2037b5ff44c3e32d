"""Try a recipe's color, at several thicknesses, over several grounds, in a light."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.actions.plan_batch import workplace
from pourwright.actions.port import Bench
from pourwright.actions.shape_of import own_shape_of
from pourwright.actions.shelf_color import ColorShelf, color_shelf
from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.color.ground import GROUND, Backing
from pourwright.color.lab import Lab, as_lab, screen_of
from pourwright.color.layer import Mixture, mixture, sight
from pourwright.color.match.target import Target
from pourwright.color.slab import Placing
from pourwright.plan.bait_part import bait_part
from pourwright.shop.look import Dose, Measure
from pourwright.shop.mold import Bait
from pourwright.shop.noun import Noun
from pourwright.spectrum.color_space import lab_of
from pourwright.spectrum.difference import delta_e00, in_words
from pourwright.spectrum.light import WEIGHTS, Light

THICKNESSES_MM = (3.0, 6.0, 10.0, 15.0)
# Deep clear water sends a few hundredths of daylight back; estimate.
_WATER_GROUND = 0.03
# A change of thickness worth a word, CIEDE2000; common practice, no source.
_MOVED = 2.0
# What a forecast of color takes.
_THIN_MM, _THICK_MM = 0.2, 60.0
VIEWS = (
    ("over white", Placing.CONTACT, GROUND[Backing.WHITE]),
    ("over dark", Placing.CONTACT, GROUND[Backing.DARK]),
    ("in the hand", Placing.HAND, 0.0),
    ("in water", Placing.WATER, _WATER_GROUND),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """A recipe for 100 g and how it is looked at."""

    doses: tuple[Dose, ...]
    plastic: str = ""
    light: Light = Light.D65
    shed: bool = False
    target: Lab | None = None
    thick_mm: float = 10.0
    cup_g: float = 170.0


@dataclass(frozen=True, slots=True)
class Cell:
    """One swatch."""

    view: str
    color_hex: str
    in_gamut: bool


@dataclass(frozen=True, slots=True)
class ThicknessRow:
    """The swatches of one thickness."""

    thick_mm: float
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Shown:
    """What a trial looks like."""

    rows: tuple[ThicknessRow, ...]
    lab: Lab
    color_hex: str
    target_hex: str
    target_in_gamut: bool
    delta_e00: float | None
    words: str
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Moved:
    """The same recipe in another bait, beside the trial's own thickness."""

    bait: str
    thick_mm: float
    home_hex: str
    color_hex: str
    delta_e00: float
    warns: bool


def try_color(bench: Bench, trial: Trial) -> Shown:
    """Swatches at several thicknesses, and the difference to the target at the trial's own.

    Raises: BadInput where the shed light is asked for and nobody described it.
    """
    shelf, light = color_shelf(bench), light_of(bench, trial)
    mixed = _mixed(shelf, trial)
    thick = sorted({*THICKNESSES_MM, trial.thick_mm})
    rows = tuple(
        ThicknessRow(t, tuple(_cell(mixed, light, t, view) for view in VIEWS)) for t in thick
    )
    lab = _lab(mixed, light, trial.thick_mm)
    off = None if trial.target is None else float(delta_e00(lab, _wanted(trial, light)))
    target_hex, inside = screen_of(_wanted(trial, light)) if trial.target else ("", True)
    return Shown(
        rows,
        as_lab(lab),
        screen_of(lab)[0],
        target_hex,
        inside,
        off,
        "" if off is None else in_words(off),
        (*_notes(shelf, trial), *_light_notes(bench, trial)),
    )


def light_of(bench: Bench, trial: Trial) -> Array:
    """XYZ weights of the light a trial is looked at in. Raises: as `try_color`."""
    if not trial.shed:
        return WEIGHTS[trial.light]
    light = workplace(bench).shed_light
    if light is None:
        raise BadInput("light", "shed", "is not described yet: say on Workplace what lamp it is")
    return light.weights()


def _light_notes(bench: Bench, trial: Trial) -> tuple[str, ...]:
    light = workplace(bench).shed_light if trial.shed else None
    return () if light is None else (f"Shed light: {light.note()}.",)


def moved(bench: Bench, trial: Trial) -> tuple[Moved, ...]:
    """How the color shifts in each bait on the bench, against the trial's own thickness."""
    mixed, light = _mixed(color_shelf(bench), trial), light_of(bench, trial)
    home = _lab(mixed, light, trial.thick_mm)
    found = []
    for name, thick in thick_baits(bench):
        lab = _lab(mixed, light, thick)
        off = float(delta_e00(home, lab))
        found.append(Moved(name, thick, screen_of(home)[0], screen_of(lab)[0], off, off > _MOVED))
    return tuple(found)


def thick_baits(bench: Bench) -> tuple[tuple[str, float], ...]:
    """Baits whose thickest place is known, 0.2 to 60 mm, with that thickness in mm."""
    known = ((s.noun, _thickest(bench, s.noun)) for s in bench.records.all(Bait.key))
    return tuple((noun.name, thick) for noun, thick in known if thick is not None)


def _cell(mixed: Mixture, light: Array, thick_mm: float, view: tuple[str, Placing, float]) -> Cell:
    words, placing, ground = view
    color, inside = screen_of(_seen(mixed, light, thick_mm, placing, ground))
    return Cell(words, color, inside)


def _lab(mixed: Mixture, light: Array, thick_mm: float) -> Array:
    return _seen(mixed, light, thick_mm, Placing.CONTACT, GROUND[Backing.WHITE])


def _mixed(shelf: ColorShelf, trial: Trial) -> Mixture:
    doses = [dose for d in trial.doses if (dose := shelf.dose(d)).colorant]
    raw = shelf.plastic(trial.plastic).typical_flux()
    return mixture(raw, [d.stuff(d.typical()) for d in doses])


def _seen(mixed: Mixture, light: Array, thick_mm: float, placing: Placing, ground: float) -> Array:
    seen = sight(mixed, thick_mm=thick_mm, ground=ground, placing=placing).reflectance[0]
    return lab_of(seen @ light, light.sum(axis=0))


def _wanted(trial: Trial, light: Array) -> Array:
    """The target, which is a daylight color, as that light shows it."""
    daylight = WEIGHTS[Light.D65]
    lights = [daylight] if light is daylight else [daylight, light]
    return np.asarray(Target(lab=trial.target).labs(lights)[-1])


def _thickest(bench: Bench, bait: Noun) -> float | None:
    if not isinstance(bait, Bait):
        return None
    thick = bait_part(bait, own_shape_of(bench, bait)).thickest_mm
    return None if thick is None or not _THIN_MM <= thick <= _THICK_MM else float(thick)


def _notes(shelf: ColorShelf, trial: Trial) -> tuple[str, ...]:
    known = [(shelf.dose(d), d) for d in trial.doses]
    guessed = [k.name for k, _ in known if k.colorant and not k.colorant.measured]
    plain = [k.name for k, _ in known if not k.colorant]
    notes = []
    if guessed:
        notes.append(f"Uncalibrated: {', '.join(guessed)} by the color entered, not by pucks.")
    if trial.target is not None and (trial.shed or trial.light is not Light.D65):
        notes.append("The target is a daylight color, shown in this light by a stand-in spectrum.")
    if plain:
        notes.append(f"Counted as clear, for want of a color: {', '.join(plain)}.")
    limits = dict.fromkeys(k.colorant.limit for k, _ in known if k.colorant and k.colorant.limit)
    return (*notes, *(f"{words[:1].upper()}{words[1:]}." for words in limits))


MEASURE_STEP = {Measure.DROPS: 1.0, Measure.SPOONS: 0.125, Measure.GRAMS: 0.1}
MEASURE_MOST = {Measure.DROPS: 40.0, Measure.SPOONS: 4.0, Measure.GRAMS: 20.0}
