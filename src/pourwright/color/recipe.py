"""What to weigh, drip and spoon for a batch, and how far the whole drops and spoons miss."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.assume import drawn, left_out
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import number, out, parts, pick, text, unmeasured
from pourwright.base.record import Record
from pourwright.base.source import PRACTICE, published
from pourwright.color import spoon
from pourwright.color.predict import GROUND, Backing, Colored, ColorantKind, spectra
from pourwright.spectrum import color_space
from pourwright.spectrum.difference import delta_e00

KITCHEN_SPOONS = (1.0, 0.5, 0.25, 0.125)
FEW_DROPS = 3


class Measured(StrEnum):
    """How a dose is measured out."""

    DROPS = "drops"
    GRAMS = "grams"
    SPOONS = "level teaspoons"


class Shows(StrEnum):
    """Whether and how a dose colors the plastic."""

    NOTHING = "nothing"
    TRANSLUCENT = "translucent"
    OPAQUE = "opaque"
    PEARL = "pearl"
    FLAKE = "flake"


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeDose(Record):
    """One material, and how much of it goes into 100 g of plastic."""

    name: str = text("Name", most=60)
    per_100g: float = number("Amount to 100 g of plastic", low=0.001, high=400)
    measure: Measured = pick("Measured in", default=Measured.DROPS)
    drop_mass_g: float | None = unmeasured(
        "One drop", low=0.005, high=0.2, typical=(0.025, 0.04, 0.06),
        measure="weigh 20 drops and divide by 20",
    )  # fmt: skip
    spoon_g: float | None = unmeasured(
        "One level teaspoon", low=0.3, high=12, typical=(1.5, 2.6, 5),
        measure="weigh five level teaspoons and divide by five",
    )  # fmt: skip
    shows: Shows = pick("How it colors", default=Shows.NOTHING)
    color_hex: str = text("The color it shows", pattern="(#[0-9a-fA-F]{6})?", most=7, default="")
    strength: float = number("Strength against a usual colorant", low=0.02, high=20, default=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeInput(Record):
    """A recipe for 100 g and the plastic it goes into."""

    plastic_g: float = number("Plastic", low=5, high=20_000)
    doses: tuple[RecipeDose, ...] = parts("Recipe for 100 g", least=1, most=20)
    spoon_sizes_tsp: tuple[float, ...] = parts(
        "Spoons at hand; left out: 1, 1/2, 1/4 and 1/8 tsp", most=12, low=0.01, high=6
    )
    scale_step_g: float = number("Smallest step of the scale", low=0.001, high=10, default=0.1)
    thick_mm: float = number("Thickness for the color shift", low=0.2, high=60, default=10)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)


@dataclass(frozen=True, slots=True)
class ScaledDose:
    """One material for this batch."""

    name: str = out("Name")
    grams: Band = out("Exact grams")
    drops: int | None = out("Whole drops; null where it is not dripped")
    spoons: str = out("Level spoons in words; empty where it is not spooned")
    scale_g: float = out("What the scale can show for it")
    error_share: float = out("How far drops, spoons or scale steps miss, as a share of the dose")
    error_g: float = out("The same in grams")
    note: str = out("Caution; empty where there is none")


@dataclass(frozen=True, slots=True)
class RecipeAnswer:
    """A recipe scaled to a batch."""

    doses: tuple[ScaledDose, ...] = out("Dose by dose")
    color_shift: float | None = out("CIEDE2000 caused by the rounding; null without colors")
    notes: tuple[str, ...] = out("What was assumed")


@calculation(
    "recipe.scale",
    purpose="what to weigh, drip and spoon for this batch",
    sources=(
        published("NIST SP 811 (2008), appendix B.8: teaspoon 4.928922 mL"),
        PRACTICE,
    ),
    example={
        "plastic_g": 336,
        "doses": [
            {"name": "green", "per_100g": 6, "drop_mass_g": 0.036, "shows": "translucent",
             "color_hex": "#4f6b2a"},
            {"name": "copper flake", "per_100g": 0.25, "measure": "level teaspoons",
             "spoon_g": 2.8},
            {"name": "stabilizer", "per_100g": 1, "measure": "grams"},
        ],
    },
)  # fmt: skip
def recipe_scale(inputs: RecipeInput) -> RecipeAnswer:
    """Whole drops and level spoons nearest to the exact dose, with what the rounding does.

    Raises: BadInput where the smallest spoon is bigger than the whole batch.
    """
    draws = Draws(seed=inputs.seed, count=80)
    scaled = tuple(_scaled(draws, d, inputs) for d in inputs.doses)
    notes = [n for d in inputs.doses for n in left_out(d, unused=_UNUSED[d.measure])]
    return RecipeAnswer(scaled, _shift(inputs, scaled), tuple(notes))


_UNUSED = {
    Measured.DROPS: ("spoon_g",),
    Measured.SPOONS: ("drop_mass_g",),
    Measured.GRAMS: ("spoon_g", "drop_mass_g"),
}


def _scaled(draws: Draws, dose: RecipeDose, inputs: RecipeInput) -> ScaledDose:
    wanted = dose.per_100g * inputs.plastic_g / 100
    values = drawn(draws, dose, prefix=f"{dose.name}: ")
    match dose.measure:
        case Measured.DROPS:
            return _dripped(draws, dose, inputs, wanted, values["drop_mass_g"])
        case Measured.SPOONS:
            return _spooned(draws, dose, inputs, wanted, values["spoon_g"])
        case Measured.GRAMS:
            return _weighed(draws, dose, inputs, wanted)


def _dripped(
    draws: Draws, dose: RecipeDose, inputs: RecipeInput, wanted: float, drop_g: Array
) -> ScaledDose:
    drops = round(wanted)
    note = ""
    if drops < FEW_DROPS:
        note = "few drops: make a bigger cup, or thin the colorant 1 to 10 and count more"
    return ScaledDose(
        name=dose.name,
        grams=draws.band(wanted * drop_g),
        drops=drops,
        spoons="",
        scale_g=_stepped(float(drops * drop_g[0]), inputs.scale_step_g),
        error_share=drops / wanted - 1,
        error_g=float((drops - wanted) * drop_g[0]),
        note=note,
    )


def _spooned(
    draws: Draws, dose: RecipeDose, inputs: RecipeInput, wanted: float, spoon_g: Array
) -> ScaledDose:
    sizes = inputs.spoon_sizes_tsp or KITCHEN_SPOONS
    smallest = min(sizes)
    if smallest * float(spoon_g[0]) > inputs.plastic_g:
        raise BadInput(
            "spoon_sizes_tsp", smallest,
            f"the smallest spoon of {dose.name} ({smallest * spoon_g[0]:.1f} g) is bigger than the "
            f"whole batch of {inputs.plastic_g:g} g",
        )  # fmt: skip
    spoons = spoon.spooned(wanted, sizes)
    taken = spoon.total(spoons)
    note = ""
    if not spoons:
        note = f"less than half of the smallest spoon ({smallest:g} tsp): weigh it instead"
    elif abs(taken / wanted - 1) > 0.15:
        note = "the spoons at hand miss by more than 15 %: weigh it instead"
    return ScaledDose(
        name=dose.name,
        grams=draws.band(wanted * spoon_g),
        drops=None,
        spoons=spoon.in_words(spoons),
        scale_g=_stepped(float(taken * spoon_g[0]), inputs.scale_step_g),
        error_share=taken / wanted - 1,
        error_g=float((taken - wanted) * spoon_g[0]),
        note=note,
    )


def _weighed(draws: Draws, dose: RecipeDose, inputs: RecipeInput, wanted: float) -> ScaledDose:
    shown = _stepped(wanted, inputs.scale_step_g)
    note = ""
    if wanted < 5 * inputs.scale_step_g:
        note = "under five steps of the scale: use a finer scale or a bigger batch"
    return ScaledDose(
        name=dose.name,
        grams=draws.band(draws.known(wanted)),
        drops=None,
        spoons="",
        scale_g=shown,
        error_share=shown / wanted - 1,
        error_g=shown - wanted,
        note=note,
    )


def _stepped(grams: float, step: float) -> float:
    return round(round(grams / step) * step, 6)


def _shift(inputs: RecipeInput, scaled: tuple[ScaledDose, ...]) -> float | None:
    colored = [
        (d, s) for d, s in zip(inputs.doses, scaled, strict=True)
        if d.shows is not Shows.NOTHING and d.color_hex
    ]  # fmt: skip
    if not colored:
        return None
    exact = _lab(inputs, [(d, s.grams.typical) for d, s in colored])
    rounded = _lab(inputs, [(d, s.grams.typical + s.error_g) for d, s in colored])
    return float(delta_e00(exact, rounded))


def _lab(inputs: RecipeInput, doses: list[tuple[RecipeDose, float]]) -> Array:
    colorants = tuple(
        Colored(
            name=d.name,
            acts=ColorantKind(d.shows.value),
            color_hex=d.color_hex,
            grams_per_100g=min(grams / inputs.plastic_g * 100, 50.0),
        )
        for d, grams in doses
    )
    strengths = [np.array([d.strength]) for d, _ in doses]
    white = GROUND[Backing.WHITE]
    seen, _ = spectra(colorants, strengths, thick_mm=inputs.thick_mm, ground=white, air_gap=False)
    return color_space.lab_of(color_space.xyz_of(seen[0]), color_space.white_xyz())
