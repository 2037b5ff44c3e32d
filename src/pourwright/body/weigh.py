"""Volume and density of a bait from a scale and a glass of water."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Doubt, Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import number, out, unmeasured
from pourwright.base.record import Record
from pourwright.base.source import estimate, published
from pourwright.matter.water import density_kg_m3

LIGHTEST_G_ML, HEAVIEST_G_ML = 0.3, 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighInput(Record):
    """A bait weighed dry, then lowered on a thread into a glass of water on a zeroed scale."""

    air_g: float = number("Bait in air", low=0.05, high=500)
    gained_g: float = number("What the glass gained", low=0.05, high=500)
    water_c: float | None = unmeasured(
        "Water", low=0, high=40, typical=(16, 21, 26), measure="read the water temperature"
    )
    scale_step_g: float = number("Smallest step of the scale", low=0.001, high=10, default=0.1)
    clinging_air_ml: float | None = unmeasured(
        "Air clinging to the bait", low=0, high=2, typical=(0, 0.01, 0.05),
        measure="wet the bait with a drop of dish soap and brush the bubbles off",
    )  # fmt: skip
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a pair of weights that no plastic has."""
        density = self.air_g / self.gained_g
        if not LIGHTEST_G_ML <= density <= HEAVIEST_G_ML:
            raise BadInput(
                "gained_g", self.gained_g,
                f"makes the bait {density:.2f} g/mL; a bait lies between {LIGHTEST_G_ML:g} and "
                f"{HEAVIEST_G_ML:g}: did it touch the glass, or was the scale not zeroed?",
            )  # fmt: skip


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
        published("Archimedes, On Floating Bodies, I.7"),
        published("UNESCO Technical Papers in Marine Science 36 (1981) for the water"),
        estimate("air that clings to the bait"),
    ),
    example={"air_g": 12.1, "gained_g": 11.4, "water_c": 21, "scale_step_g": 0.1},
)
def weigh(inputs: WeighInput) -> WeighAnswer:
    """The glass gains the weight of the water that the bait pushes aside."""
    draws = Draws(seed=inputs.seed)
    v = drawn(draws, inputs)
    half = 0.5 * inputs.scale_step_g
    step = Band(-half, 0.0, half)
    how = "use a scale with finer steps, or weigh five baits at once"
    gained = inputs.gained_g + draws.of("scale in water", Doubt("step of the scale", step, how))
    air = inputs.air_g + draws.of("scale in air", Doubt("step of the scale, in air", step, how))
    lines = np.linspace(0, 40, 81)
    table = np.array([density_kg_m3(float(t)) / 1000 for t in lines])
    water = np.interp(v["water_c"], lines, table)
    volume = np.maximum(gained, 0.2 * inputs.gained_g) / water - v["clinging_air_ml"]
    volume = np.maximum(volume, 0.1 * inputs.gained_g)
    density = air / volume
    notes = (
        *left_out(inputs),
        *width_notes(draws, {"volume_ml": volume, "density_g_ml": density}),
        "Dry the bait for good before it goes near the remelt pot: water flashes to steam.",
    )
    return WeighAnswer(draws.band(volume), draws.band(density), notes)
