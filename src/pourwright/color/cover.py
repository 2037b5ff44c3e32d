"""How much flake makes that look."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.field import number, out, unmeasured
from pourwright.base.record import Record
from pourwright.base.source import estimate, memory
from pourwright.color.kinds.flake import FILM_G_ML, FILM_UM, face_mm2_per_g, faces_per_mm
from pourwright.matter.additive import DENSITY_G_ML

_DEPTH_STEPS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class CoverInput(Record):
    """A flake, its dose and the bait."""

    size_mm: float = number("Flake, a hexagon measured flat to flat", low=0.05, high=6)
    film_um: float | None = unmeasured(
        "Film thickness", low=8, high=250, typical=FILM_UM, label="film thickness",
        measure="read the supplier's sheet", logarithmic=True,
    )  # fmt: skip
    grams_per_100g: float = number("Grams of flake in 100 g of plastic", low=0, high=30)
    thick_mm: float = number("Thickness of the bait", low=0.2, high=60, default=10)
    bait_mass_g: float = number("One bait", low=0.1, high=500, default=10)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)


@dataclass(frozen=True, slots=True)
class CoverAnswer:
    """What the flake does."""

    flakes_per_gram: Band = out("Flakes in a gram")
    flakes_each: Band = out("Flakes in one bait")
    cover: Band = out("Share of the sight that flakes hide, 0 to 1, tilted at random")
    depths_mm: tuple[float, ...] = out("Depths under the skin")
    cover_by_depth: tuple[Band, ...] = out("Share hidden by the flakes down to each depth")
    notes: tuple[str, ...] = out("What was assumed, what is left out")


@calculation(
    "flake.cover",
    purpose="how much flake for that look",
    sources=(
        estimate("Boolean model of flat plates at random tilt (Cauchy's mean shadow)"),
        memory("polyester film 1.38 g/cm³, polymer handbooks"),
    ),
    example={"size_mm": 0.4, "film_um": 25, "grams_per_100g": 0.3, "thick_mm": 10},
)
def flake_cover(inputs: CoverInput) -> CoverAnswer:
    """Count and cover of flake; the cover follows its grams and film, not its size."""
    draws = Draws(seed=inputs.seed)
    film_um = drawn(draws, inputs)["film_um"]
    density = draws.of("density of the flake", DENSITY_G_ML["flake"])
    per_gram = flakes_per_gram(inputs.size_mm, film_um, density)
    faces = faces_per_mm(draws.known(inputs.grams_per_100g), film_um, density)
    depths = np.linspace(0, inputs.thick_mm, _DEPTH_STEPS + 1)[1:]
    covers = [-np.expm1(-faces * d / 2) for d in depths]
    return CoverAnswer(
        draws.band(per_gram),
        draws.band(per_gram * inputs.grams_per_100g / 100 * inputs.bait_mass_g),
        draws.band(covers[-1]),
        tuple(float(d) for d in depths),
        tuple(draws.band(c) for c in covers),
        (
            "plastic is taken as clear: a tint dims the flakes the more, the deeper they lie",
            *left_out(inputs),
            *width_notes(draws, {"cover": covers[-1]}),
        ),
    )


def flakes_per_gram(size_mm: float, film_um: Array, film_g_ml: Array | float = FILM_G_ML) -> Array:
    """Regular hexagons in a gram: face area of the gram over √3/2 times size squared."""
    return np.asarray(face_mm2_per_g(film_um, film_g_ml) / (math.sqrt(3) / 2 * size_mm**2))
