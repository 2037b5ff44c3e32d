"""What goes wrong between the recipe and the puck: drops, scales, molds and cards."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.spectrum.light import WAVELENGTHS_NM

DROP_SCATTER = 0.07
"""One drop's mass, relative standard deviation: 6 to 8 % (common practice, no source)."""
THICK_SCATTER = 0.02
SCALE_G = 0.01


@dataclass(frozen=True, slots=True, eq=False)
class Cards:
    """True reflectance of the black and the white card on the 31 bands."""

    black: Array
    white: Array


def drip(counts: Array, rng: np.random.Generator, drop_mass_g: Array) -> Array:
    """Grams truly delivered by counted drops; the scatter averages out over many.

    Parameters: `counts` (samples, colorants), not negative; `drop_mass_g` true mean drop mass, of
    one or of each colorant.
    """
    counts = np.asarray(counts, dtype=float)
    chance = rng.normal(0, DROP_SCATTER, counts.shape)
    return np.asarray(drop_mass_g * np.maximum(counts + np.sqrt(counts) * chance, 0))


def weighed_drop(rng: np.random.Generator, drop_mass_g: Array, drops: int = 20) -> Array:
    """The drop mass a maker believes after weighing some drops on a scale of 0.01 g.

    The error stays with the bottle: near 1.6 % for twenty drops, from the drops themselves
    (0.07 / sqrt 20), and up to 0.7 % from the scale's last digit.
    """
    total = drip(np.full(np.shape(drop_mass_g), float(drops)), rng, drop_mass_g)
    return np.asarray(np.round(total / SCALE_G) * SCALE_G / drops)


def poured_thick(thick_mm: Array, rng: np.random.Generator) -> Array:
    """True thickness of pucks meant to be so thick: 2 % off (standard deviation)."""
    meant = np.asarray(thick_mm, dtype=float)
    return np.asarray(meant * (1 + THICK_SCATTER * rng.normal(size=meant.shape)))


def random_cards(rng: np.random.Generator) -> Cards:
    """A black card of 3 to 6 % and a white one of 85 to 92 %, neither quite neutral."""
    return Cards(
        _card(rng.uniform(0.03, 0.06), 0.10, rng), _card(rng.uniform(0.85, 0.92), 0.02, rng)
    )


def _card(level: float, tint: float, rng: np.random.Generator) -> Array:
    """Tilt and bow over the spectrum, each of the given standard deviation at its ends."""
    across = (WAVELENGTHS_NM - 550) / 150
    tilt, bow = rng.normal(0, tint, 2) / 2
    return np.asarray(np.minimum(level * (1 + tilt * across + bow * (across**2 - 1 / 3)), 0.95))
