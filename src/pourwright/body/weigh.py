"""Volume and density of a bait from a scale and a glass of water."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band, rounded_to
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import number, out, unmeasured
from pourwright.base.record import Record
from pourwright.base.source import estimate, published
from pourwright.matter.water import density_kg_m3

LIGHTEST_G_ML, HEAVIEST_G_ML = 0.3, 3.0
LEAST_STEPS = 4
WATER_LOW_C, WATER_HIGH_C = 0, 40
CAUTION = (
    "Dry the bait completely before it goes to the remelt pot: water flashes to steam in hot "
    "plastic and throws it."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighInput(Record):
    """A bait weighed dry, then lowered on a thread into a glass of water on a zeroed scale."""

    air_g: float = number("Bait in air", low=0.05, high=500)
    gained_g: float = number(
        "What the glass gained when the bait hung in the water, clear of the glass",
        low=0.05, high=500,
    )  # fmt: skip
    water_c: float | None = unmeasured(
        "Temperature of the water", label="water temperature", low=WATER_LOW_C, high=WATER_HIGH_C,
        typical=(16, 21, 26), measure="read the water temperature",
    )  # fmt: skip
    scale_step_g: float = number("Smallest step of the scale", low=0.001, high=10, default=0.1)
    repeat_g: float | None = number(
        "How far weighings of the same bait differ; left out: one step of the scale",
        low=0, high=10, default=None,
    )  # fmt: skip
    clinging_air_share: float | None = unmeasured(
        "Air clinging to the bait, as a share of its volume",
        label="air bubbles on the bait", low=0, high=0.1, typical=(0, 0.001, 0.005),
        measure="wet the bait with a drop of dish soap in the water and brush the bubbles off",
    )  # fmt: skip
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    @property
    def spread_g(self) -> float:
        """How far repeated weighings differ, given or taken from the scale."""
        return self.scale_step_g if self.repeat_g is None else self.repeat_g

    def check(self) -> None:
        """Refuse a pair of weights that no plastic has, and a scale too coarse for the bait."""
        density = self.air_g / self.gained_g
        if not LIGHTEST_G_ML <= density <= HEAVIEST_G_ML:
            raise BadInput(
                "gained_g", self.gained_g,
                f"makes the bait {density:.2f} g/mL; a bait lies between {LIGHTEST_G_ML:g} and "
                f"{HEAVIEST_G_ML:g}: did it touch the glass, or was the scale not zeroed?",
            )  # fmt: skip
        lighter = min(self.air_g, self.gained_g)
        if lighter < LEAST_STEPS * self.scale_step_g:
            raise BadInput(
                "scale_step_g", self.scale_step_g,
                f"is too coarse for {lighter:g} g; weigh several baits at once",
            )  # fmt: skip
        if self.spread_g > lighter / LEAST_STEPS:
            raise BadInput("repeat_g", self.repeat_g, f"is too much for a bait of {lighter:g} g")


@dataclass(frozen=True, slots=True)
class WeighAnswer:
    """Volume and density."""

    volume_ml: Band = out("Volume")
    density_g_ml: Band = out("Density")
    notes: tuple[str, ...] = out("What dominates, and what to do with the wet bait")


@calculation(
    "body.weigh",
    purpose="volume and density from a scale",
    sources=(
        published("Archimedes, On Floating Bodies, book I, proposition 7"),
        published("UNESCO Technical Papers in Marine Science 36 (1981), density of the water"),
        estimate("bubbles up to 0.5 % of the volume; repeated weighings within one step"),
    ),
    example={"air_g": 12.1, "gained_g": 11.4, "water_c": 21, "scale_step_g": 0.1},
)
def weigh(inputs: WeighInput) -> WeighAnswer:
    """The glass gains the weight of the water that bait and bubbles push aside.

    Bubbles only ever add, so they pull the volume one way. The lift of the air on the bait
    (0.1 % of the volume) and the thread are left out.
    Raises: BadInput for weights that no bait has, or a scale too coarse for it.
    """
    draws = Draws(seed=inputs.seed)
    v = drawn(draws, inputs)
    air = inputs.air_g + _scale_error(draws, inputs, "in air")
    gained = inputs.gained_g + _scale_error(draws, inputs, "in water")
    bubbles = np.maximum(v["clinging_air_share"], 0)
    volume = gained / _water_g_ml(v["water_c"]) / (1 + bubbles)
    density = air / volume
    notes = (
        *left_out(inputs),
        f"The scale steps by {inputs.scale_step_g:g} g and repeats within {inputs.spread_g:g} g.",
        *width_notes(draws, {"volume_ml": volume, "density_g_ml": density}),
        CAUTION,
    )
    return WeighAnswer(draws.band(volume), draws.band(density), notes)


def _scale_error(draws: Draws, inputs: WeighInput, where: str) -> Array:
    spread = inputs.spread_g
    step = Doubt(
        f"step of the scale {where}", rounded_to(inputs.scale_step_g),
        "weigh several baits at once and divide",
    )  # fmt: skip
    repeat = Doubt(
        f"repeat of the weighing {where}", Band(-spread, 0, spread),
        "weigh it three times and type how far the readings differ",
    )  # fmt: skip
    return np.asarray(draws.of(step.label, step) + draws.of(repeat.label, repeat))


def _water_g_ml(temp_c: Array) -> Array:
    """Density of fresh water, straight between whole degrees."""
    degrees = np.arange(WATER_LOW_C, WATER_HIGH_C + 1)
    table = [density_kg_m3(float(t)) / 1000 for t in degrees]
    return np.asarray(np.interp(temp_c, degrees, table))
