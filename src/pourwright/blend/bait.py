"""What a bait weighs and how much water it pushes aside, from two figures of four."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.band import Band, rounded_to
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import band, number, unmeasured
from pourwright.base.record import Record
from pourwright.matter.water import (
    HIGHEST_C,
    LOWEST_C,
    SALTIEST,
    density_kg_m3,
    drawn_density_kg_m3,
)

# Half-widths of 90 % bands, as shares, of a density or volume typed without a range; estimates.
DENSITY_MISS, VOLUME_MISS = 0.005, 0.01
TAP_C = 20.0
GRAMS_PER_KG = 1000
HANG_IT = "hang it on a thread in fresh water and type what it weighs there (hung_g)"


@dataclass(frozen=True, slots=True, kw_only=True)
class BaitInput(Record):
    """A bait in its water."""

    mass_g: float | None = number("Bait in air, without hook", low=0.05, high=500, default=None)
    volume_ml: Band | None = band("Volume", low=0.05, high=500, default=None)
    density_g_ml: Band | None = band("Density", low=0.3, high=3, default=None)
    hung_g: float | None = number(
        "What it weighs hanging in fresh water; negative if it must be held down",
        low=-300, high=300, default=None,
    )  # fmt: skip
    scale_step_g: float = number("Smallest step of the scale", low=0.001, high=5, default=0.1)
    salinity: float = number(
        "Salt in the water in practical units: 0 fresh, about 17 brackish, 35 sea",
        low=0, high=SALTIEST, default=0,
    )  # fmt: skip
    water_c: float | None = unmeasured(
        "Temperature of the water", label="water temperature", low=LOWEST_C, high=HIGHEST_C,
        typical=(9, 18, 26), measure="read the water temperature",
    )  # fmt: skip
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse fewer or more than two figures, and the two from which nothing follows."""
        figures = (self.mass_g, self.volume_ml, self.density_g_ml, self.hung_g)
        if sum(figure is not None for figure in figures) != 2:
            why = "give two of mass_g, volume_ml, density_g_ml and hung_g"
            raise BadInput("density_g_ml", None, why)
        if self.density_g_ml is not None and self.hung_g is not None:
            raise BadInput("hung_g", self.hung_g, "goes with a mass or a volume, not a density")
        if self.hung_g is not None and self.mass_g is not None and self.hung_g >= self.mass_g:
            raise BadInput("hung_g", self.hung_g, "must be less than the weight in air")


@dataclass(frozen=True, slots=True)
class Bait:
    """Draws of a bait's mass and volume, and of its water."""

    mass_kg: Array
    volume_m3: Array
    water_c: Array
    water_kg_m3: Array

    @property
    def pushed_kg(self) -> Array:
        """Mass of the water pushed aside."""
        return np.asarray(self.water_kg_m3 * self.volume_m3)


def drawn_bait(draws: Draws, inputs: BaitInput, water_c: Array) -> Bait:
    """The bait from whichever two figures were given.

    Raises: BadInput if they make it lighter than any plastic.
    """
    mass, volume = _mass_and_volume(draws, inputs)
    if not (volume > 0).all() or not (mass > 0).all():
        raise BadInput("hung_g", inputs.hung_g, "leaves the bait no mass or no volume")
    water = drawn_density_kg_m3(np.clip(water_c, LOWEST_C, HIGHEST_C), inputs.salinity)
    return Bait(mass, volume, water_c, water)


def _mass_and_volume(draws: Draws, inputs: BaitInput) -> tuple[Array, Array]:
    """In kg and m³."""
    match inputs.mass_g, inputs.volume_ml, inputs.density_g_ml, inputs.hung_g:
        case None, Band() as size, Band() as density, None:
            volume = _volume_m3(draws, size)
            return volume * _density_kg_m3(draws, density), volume
        case float() as grams, None, Band() as density, None:
            mass = _weighed_kg(draws, inputs, grams, "in air")
            return mass, mass / _density_kg_m3(draws, density)
        case float() as grams, Band() as size, None, None:
            return _weighed_kg(draws, inputs, grams, "in air"), _volume_m3(draws, size)
        case float() as grams, None, None, float() as hung:
            mass = _weighed_kg(draws, inputs, grams, "in air")
            return mass, (mass - _weighed_kg(draws, inputs, hung, "in water")) / _TAP_KG_M3
        case None, Band() as size, None, float() as hung:
            volume = _volume_m3(draws, size)
            return _weighed_kg(draws, inputs, hung, "in water") + _TAP_KG_M3 * volume, volume
        case _:
            raise BadInput("density_g_ml", None, "give two of the four figures of the bait")


_TAP_KG_M3 = density_kg_m3(TAP_C)


def _density_kg_m3(draws: Draws, given: Band) -> Array:
    return 1000 * _drawn(draws, "density of the bait", given, DENSITY_MISS)


def _volume_m3(draws: Draws, given: Band) -> Array:
    return 1e-6 * _drawn(draws, "volume of the bait", given, VOLUME_MISS)


def _drawn(draws: Draws, label: str, given: Band, miss: float) -> Array:
    known = given
    if given.low == given.high:
        known = Band(given.low * (1 - miss), given.typical, given.high * (1 + miss))
    return draws.of(label, Doubt(label, known, HANG_IT))


def _weighed_kg(draws: Draws, inputs: BaitInput, grams: float, where: str) -> Array:
    label = f"step of the scale {where}"
    off = draws.of(
        label, Doubt(label, rounded_to(inputs.scale_step_g), "weigh it on a finer scale")
    )
    return np.asarray((grams + off) / GRAMS_PER_KG)
