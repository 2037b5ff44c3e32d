"""What to weigh, drip and spoon for a batch, and how far whole drops and spoons miss."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import number, out, parts
from pourwright.base.record import Record
from pourwright.base.source import PRACTICE, estimate, published
from pourwright.base.units import convert
from pourwright.color import spoon
from pourwright.color.count import Count, dripped, spooned, weighed
from pourwright.color.dose import Dose, Measured
from pourwright.color.ground import Backing
from pourwright.color.swatch import poured_on
from pourwright.matter.plastisol import COLD_DENSITY_G_ML
from pourwright.spectrum.color_space import lab_of
from pourwright.spectrum.difference import delta_e00
from pourwright.spectrum.light import white_xyz, xyz_of

# A miss that the eye begins to notice in a strong colorant; estimate.
WIDE_MISS_SHARE = 0.10


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeInput(Record):
    """A recipe for 100 g and the plastic it goes into."""

    plastic_g: float = number("Plastic in the batch", low=5, high=20_000)
    doses: tuple[Dose, ...] = parts("Recipe for 100 g", least=1, most=20)
    spoon_sizes_tsp: tuple[float, ...] = parts(
        "Your spoons; left out: 1, 1/2, 1/4 and 1/8 tsp", most=8, low=0.01, high=48
    )
    scale_step_g: float = number("Smallest step of the scale", low=0.001, high=10, default=0.1)
    thick_mm: float = number("Thickness for the color shift", low=0.2, high=60, default=10)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a spoon that holds more than the whole batch."""
        batch_ml = self.plastic_g / COLD_DENSITY_G_ML.typical
        for size in self.spoon_sizes_tsp:
            if convert(size, "tsp", "ml") > batch_ml:
                raise BadInput(
                    "spoon_sizes_tsp", size,
                    f"is a spoon bigger than the whole batch of {self.plastic_g:g} g "
                    f"({batch_ml:.3g} mL)",
                )  # fmt: skip

    def spoons(self) -> tuple[float, ...]:
        """Sizes at hand, in teaspoons."""
        return self.spoon_sizes_tsp or spoon.KITCHEN_SPOONS


@dataclass(frozen=True, slots=True)
class ScaledDose:
    """One material for this batch."""

    name: str = out("Name")
    grams: Band = out("Grams wanted")
    drops: int | None = out("Whole drops; null where it is not dripped")
    spoons: str = out("Level spoons in words; empty where it is not spooned")
    measured_g: float = out("Typical grams that the whole drops, spoons or scale steps give")
    scale_g: float = out("The same as the scale shows it")
    error_share: float = out("How far they miss, as a share of the dose; plus is too much")
    error_g: float = out("The same in grams")
    note: str = out("Caution; empty where there is none")


@dataclass(frozen=True, slots=True)
class RecipeAnswer:
    """A recipe scaled to a batch."""

    doses: tuple[ScaledDose, ...] = out("Dose by dose")
    color_shift: float | None = out(
        "CIEDE2000 that the rounding causes over white; null where no dose has a color"
    )
    notes: tuple[str, ...] = out("What was assumed")


@calculation(
    "recipe.scale",
    purpose="what to weigh, drip and spoon for this batch",
    sources=(
        published("NIST SP 811 (2008), appendix B.8: teaspoon 4.928922 mL"),
        PRACTICE,
        estimate("color shift by the uncalibrated two-flux swatch"),
    ),
    example={
        "plastic_g": 336,
        "doses": [
            {"name": "green", "per_100g": 6, "drop_mass_g": 0.036,
             "colorant": {"kind": "dye", "color_hex": "#4f6b2a"}},
            {"name": "copper flake", "per_100g": 0.25, "measure": "level teaspoons",
             "spoon_g": 2.8, "colorant": {"kind": "flake", "color_hex": "#b0713a"}},
            {"name": "stabilizer", "per_100g": 1, "measure": "grams"},
        ],
    },
)  # fmt: skip
def recipe_scale(inputs: RecipeInput) -> RecipeAnswer:
    """Whole drops and level spoons nearest to the exact dose, and what the rounding does.

    Raises: BadInput where a spoon is bigger than the whole batch, or a dose outweighs it.
    """
    draws = Draws(seed=inputs.seed)
    scaled = tuple(_scaled(draws, i, inputs) for i in range(len(inputs.doses)))
    notes = tuple(n for d in inputs.doses for n in d.left_out())
    shift = _color_shift(inputs, scaled)
    return RecipeAnswer(scaled, shift, (*notes, *_shift_notes(inputs, shift)))


def _scaled(draws: Draws, index: int, inputs: RecipeInput) -> ScaledDose:
    dose = inputs.doses[index]
    unit_g = dose.unit_g(dose.drawn(draws, f"{index} "))
    wanted = dose.per_100g * inputs.plastic_g / 100
    count = _counted(wanted, float(unit_g[0]), index, inputs)
    miss = count.amount / wanted - 1 if wanted else 0.0
    measured_g = count.amount * float(unit_g[0])
    return ScaledDose(
        name=dose.name,
        grams=draws.band(wanted * unit_g),
        drops=count.drops,
        spoons=count.spoons,
        measured_g=measured_g,
        scale_g=weighed(measured_g, inputs.scale_step_g).amount,
        error_share=miss,
        error_g=measured_g - wanted * float(unit_g[0]),
        note=count.note or _miss_note(miss),
    )


def _counted(wanted: float, unit_g: float, index: int, inputs: RecipeInput) -> Count:
    dose = inputs.doses[index]
    match dose.measure:
        case Measured.DROPS:
            return dripped(wanted)
        case Measured.GRAMS:
            return weighed(wanted, inputs.scale_step_g)
        case Measured.SPOONS:
            sizes = tuple(s for s in inputs.spoons() if s * unit_g <= inputs.plastic_g)
            if not sizes:
                raise BadInput(
                    "spoon_sizes_tsp", min(inputs.spoons()),
                    f"one level spoon of {dose.name} weighs more than the whole batch of "
                    f"{inputs.plastic_g:g} g",
                )  # fmt: skip
            return spooned(wanted, sizes)


def _miss_note(miss: float) -> str:
    if abs(miss) <= WIDE_MISS_SHARE:
        return ""
    return f"rounding misses by {miss:+.0%}: weigh it, or make a bigger cup"


def _color_shift(inputs: RecipeInput, scaled: tuple[ScaledDose, ...]) -> float | None:
    colored = [(d, s) for d, s in zip(inputs.doses, scaled, strict=True) if d.colorant]
    if not colored:
        return None
    wanted = [d.stuff(d.typical()) for d, _ in colored]
    measured = [d.stuff(d.typical(), d.per_100g * (1 + s.error_share)) for d, s in colored]
    one, two = (
        lab_of(xyz_of(poured_on(Backing.WHITE, stuffs, thick_mm=inputs.thick_mm)), white_xyz())
        for stuffs in (wanted, measured)
    )
    return float(delta_e00(one, two))


def _shift_notes(inputs: RecipeInput, shift: float | None) -> Iterable[str]:
    if shift is None:
        yield "no dose has a color, so the rounding's color shift is unknown"
        return
    plain = [d.name for d in inputs.doses if not d.colorant]
    if plain:
        yield f"the color shift counts these as clear: {', '.join(plain)}"
    yield "the color shift is uncalibrated: read off the colors entered, not off measured pucks"
