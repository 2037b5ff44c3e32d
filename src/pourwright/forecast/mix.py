"""What is in a layer: grams of every dose to 100 g of plastic, and the density of it all."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn
from pourwright.base.draws import Array, Draws
from pourwright.forecast.request import DosePart, LayerPart, Measure
from pourwright.matter.additive import DENSITY_G_ML


@dataclass(frozen=True, slots=True)
class Mix:
    """A layer's recipe in grams, drawn; arrays have the shape of a draw."""

    doses: tuple[DosePart, ...]
    grams_per_100g: tuple[Array, ...]
    density_g_ml: Array

    @property
    def cup_per_plastic(self) -> float:
        """Grams in the cup to one gram of plastic, at the typical recipe."""
        return 1.0 + sum(float(g[0]) for g in self.grams_per_100g) / 100


def mix_of(draws: Draws, layer: LayerPart, plastic_g_ml: Array) -> Mix:
    """The recipe of a layer in grams, and its cold density by additive volumes.

    Source: volume additivity of the parts; mixing contraction (0.3 to 1 %) is left out.
    """
    grams = tuple(dose_grams(draws, d) for d in layer.doses)
    volume = 100 / plastic_g_ml
    for dose, mass in zip(layer.doses, grams, strict=True):
        volume = volume + mass / _density(draws, dose)
    total = np.asarray(100 + sum(grams, start=np.zeros_like(plastic_g_ml)))
    return Mix(layer.doses, grams, total / volume)


def dose_grams(draws: Draws, dose: DosePart) -> Array:
    """Grams of a dose to 100 g of plastic."""
    values = drawn(draws, dose, prefix=f"{dose.material or dose.name}: ")
    match dose.measure:
        case Measure.DROPS:
            return np.asarray(dose.per_100g * values["drop_mass_g"])
        case Measure.SPOONS:
            return np.asarray(dose.per_100g * values["spoon_g"])
        case Measure.GRAMS:
            return draws.known(dose.per_100g)


def _density(draws: Draws, dose: DosePart) -> Array:
    if dose.density_g_ml is not None:
        return draws.known(dose.density_g_ml)
    return draws.of(f"density of {dose.sort.value}", DENSITY_G_ML[dose.sort.value])
