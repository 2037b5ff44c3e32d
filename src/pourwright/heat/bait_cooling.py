"""When the mold may be opened."""

from __future__ import annotations

import functools
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.errors import NoAnswer
from pourwright.base.field import flag, number, out, pick, unmeasured
from pourwright.base.record import Record
from pourwright.base.source import estimate, published
from pourwright.heat.mold_contact import OPEN_FACE_FILM, contact_film
from pourwright.matter import plastisol
from pourwright.matter.mold_material import MOLD_C, MoldMaterial
from pourwright.physics import conduction
from pourwright.physics.conduction import Solid
from pourwright.physics.open_slab import hottest_fourier

WARM_MOLD_C = 45.0
LONGEST_S = 86_400.0
_TERMS = 8


class Shape(StrEnum):
    """How the thickest place cools."""

    ROUND = "round"
    FLAT = "flat"


@dataclass(frozen=True, slots=True, kw_only=True)
class BaitCoolingInput(Record):
    """The thickest place of a bait in its mold."""

    thickest_mm: float = number("Thickest place", low=1, high=80)
    shape: Shape = pick("Round as a rod or flat as a slab", default=Shape.ROUND)
    melt_c: float = number("Plastic when the mold is full", low=100, high=220, default=165)
    mold_c: float | None = unmeasured(
        "Mold", low=0, high=120, typical=MOLD_C.ends,
        measure=MOLD_C.measure,
    )  # fmt: skip
    material: MoldMaterial = pick("Mold made of", default=MoldMaterial.ALUMINUM)
    open_face: bool = flag("Open mold: the mold cools one face, still air the other")
    firm_c: float | None = unmeasured(
        "Hottest place when it comes out firm", low=35, high=90,
        typical=plastisol.SETS_FIRM_C.ends, measure=plastisol.SETS_FIRM_C.measure,
    )  # fmt: skip
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)


@dataclass(frozen=True, slots=True)
class BaitCoolingAnswer:
    """Time from the shot to the opening."""

    open_s: Band = out("Time from the shot until the thickest place is firm")
    notes: tuple[str, ...] = out("What dominates, and what would narrow it")


@calculation(
    "cool.bait",
    purpose="when to open the mold",
    sources=(
        published("Incropera and DeWitt, 6th ed., sec. 5.5 and 5.6: exact series"),
        published("Carslaw and Jaeger, 2nd ed., sec. 3.10: slab with two films, for an open mold"),
        estimate("contact 300 to 3000 W/(m²·K) in metal, 15 to 50 in insulating molds"),
    ),
    example={"thickest_mm": 10, "mold_c": 25},
)
def cool_bait(inputs: BaitCoolingInput) -> BaitCoolingAnswer:
    """Time until the hottest point of the thickest place is firm.

    A flat place cools from both faces; in an open mold the air is taken as cold as the mold and
    the shape as flat. Raises: NoAnswer if the mold is as warm as the firm temperature.
    """
    draws = Draws(seed=inputs.seed)
    v = drawn(draws, inputs)
    seconds = open_seconds(
        thickest_m=draws.known(inputs.thickest_mm / 1000),
        flat=inputs.shape is Shape.FLAT,
        melt_c=draws.known(inputs.melt_c),
        mold_c=v["mold_c"],
        firm_c=v["firm_c"],
        film_w_m2k=contact_film(draws, inputs.material),
        alpha_m2_s=plastisol.DIFFUSIVITY_M2_S.drawn(draws),
        k_w_mk=plastisol.CONDUCTIVITY_W_MK.drawn(draws),
        air_film_w_m2k=OPEN_FACE_FILM.drawn(draws) if inputs.open_face else None,
    )
    notes = (*left_out(inputs), *width_notes(draws, {"open_s": seconds}))
    return BaitCoolingAnswer(
        draws.band(seconds), (*notes, *_cautions(float(v["mold_c"][0]), seconds))
    )


def open_seconds(
    *,
    thickest_m: Array,
    flat: bool,
    melt_c: Array,
    mold_c: Array,
    firm_c: Array,
    film_w_m2k: Array,
    alpha_m2_s: Array,
    k_w_mk: Array,
    air_film_w_m2k: Array | None = None,
) -> Array:
    """Seconds until the hottest point falls to the firm temperature, by the exact series.

    With an air film the mold is open: one face on the mold, the other to the air. A draw whose
    mold never gets the bait firm counts as a day. Raises: NoAnswer if the typical one does.
    """
    left = (firm_c - mold_c) / (melt_c - mold_c)
    if float(left[0]) <= 0:
        raise NoAnswer(
            f"the mold at {mold_c[0]:.0f} °C never cools a bait to {firm_c[0]:.0f} °C: "
            "cool the mold first"
        )
    inside = np.clip(left, 1e-9, 1 - 1e-9)
    if air_film_w_m2k is not None:
        size = thickest_m
        fourier = hottest_fourier(
            inside, film_w_m2k * size / k_w_mk, air_film_w_m2k * size / k_w_mk
        )
    else:
        size = thickest_m / 2
        root, weight = _series(film_w_m2k * size / k_w_mk, Solid.SLAB if flat else Solid.CYLINDER)
        fourier = conduction.center_fourier(inside, root, weight)
    seconds = np.minimum(fourier * size**2 / alpha_m2_s, LONGEST_S)
    return np.where(left <= 0, LONGEST_S, np.where(left >= 1, 0.0, seconds))


def _series(biot: Array, solid: Solid) -> tuple[Array, Array]:
    logs, roots, weights = _table(solid)
    at = np.log(biot)
    return (
        np.stack([np.interp(at, logs, row) for row in roots]),
        np.stack([np.interp(at, logs, row) for row in weights]),
    )


@functools.cache
def _table(solid: Solid) -> tuple[Array, Array, Array]:
    """Roots and weights over the Biot number, fine enough for 0.01 %."""
    logs = np.linspace(np.log(1e-4), np.log(1e5), 600)
    roots = conduction.roots(solid, np.exp(logs), _TERMS)
    return logs, roots, conduction.weights(solid, roots)


def _cautions(mold_c: float, seconds: Array) -> tuple[str, ...]:
    notes = []
    if mold_c > WARM_MOLD_C:
        notes.append("The mold is warm: let it cool, or dip and dry it; water flashes to steam.")
    never = float(np.mean(seconds[1:] >= LONGEST_S))
    if never > 0:
        notes.append(
            f"In {never:.0%} of the cases the mold never gets the bait firm within a day; a day "
            "stands in for them: cool the mold."
        )
    return tuple(notes)
