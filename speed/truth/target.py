"""Colors to hit: random recipes of a shelf, poured without a fault."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from speed.truth.colorant import Shelf, reflectance
from speed.truth.instrument import as_lab

_MOST_DROPS = 20.0
_MOST_BLACK = 4.0


@dataclass(frozen=True, slots=True, eq=False)
class Targets:
    """Recipes in grams in 100 g (n, colorants), reflectance (n, 31), Lab (D65, 2 degree)."""

    grams_per_100g: Array
    reflectance: Array
    lab: Array


def random_targets(
    shelf: Shelf,
    rng: np.random.Generator,
    n: int,
    *,
    thick_mm: float,
    backing: Array | None,
    contact: bool,
) -> Targets:
    """Colors that this shelf can make at this thickness over this backing.

    Each takes two to four colorants, 1 to 20 drops in 100 g (black 1 to 4), even in the logarithm
    and not whole: whole drops come near, seldom on.
    """
    grams = np.stack([_recipe(shelf, rng) for _ in range(n)])
    seen = reflectance(shelf, grams, np.full(n, thick_mm), backing=backing, contact=contact)
    return Targets(grams, seen, as_lab(seen))


def _recipe(shelf: Shelf, rng: np.random.Generator) -> Array:
    count = len(shelf.colorants)
    most = np.array([_MOST_BLACK if c.family == "black" else _MOST_DROPS for c in shelf.colorants])
    drops = np.exp(rng.uniform(0, np.log(most)))
    used = rng.permutation(count) < rng.integers(2, 5)
    return np.asarray(np.where(used, drops * shelf.drop_g, 0))
