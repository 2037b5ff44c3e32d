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
from pourwright.heat.mold_contact import contact_film
from pourwright.matter import plastisol
from pourwright.matter.mold_material import MoldMaterial
from pourwright.physics import conduction

MELT_IN_MOLD_C = 165.0
WARM_MOLD_C = 45.0


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
        "Mold", low=0, high=120, typical=(20, 27, 38),
        measure="read the mold with the infrared gun before the shot",
    )  # fmt: skip
    material: MoldMaterial = pick("Mold made of", default=MoldMaterial.ALUMINUM)
    open_face: bool = flag("Open mold: only one face is cooled")
    firm_c: float | None = unmeasured(
        "Center when it comes out firm", low=35, high=90, typical=(50, 60, 70),
        measure="open one mold early and note when a bait keeps its shape",
    )  # fmt: skip
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)


@dataclass(frozen=True, slots=True)
class BaitCoolingAnswer:
    """Time from the shot to the opening."""

    open_s: Band = out("Time from the shot until the center is firm")
    notes: tuple[str, ...] = out("What dominates, and what would narrow it")


@calculation(
    "cool.bait",
    purpose="when to open the mold",
    sources=(
        published("Incropera and DeWitt, 6th ed., eqs. 5.41 and 5.49: one-term series"),
        estimate("contact 300 to 3000 W/(m²·K) in metal, 15 to 50 in insulating molds"),
    ),
    example={"thickest_mm": 10, "mold_c": 25},
)
def cool_bait(inputs: BaitCoolingInput) -> BaitCoolingAnswer:
    """Time until the center of the thickest place is firm.

    Raises: NoAnswer if the mold is as warm as the firm temperature.
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
        open_face=inputs.open_face,
    )
    notes = [*left_out(inputs), *width_notes(draws, {"open_s": seconds})]
    if float(v["mold_c"][0]) > WARM_MOLD_C:
        notes.append("The mold is warm: let it cool, or dip and dry it; water flashes to steam.")
    return BaitCoolingAnswer(draws.band(seconds), tuple(notes))


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
    open_face: bool = False,
) -> Array:
    """Seconds until the center falls to the firm temperature, by the first term of the series.

    An open face gives off next to nothing, so the slab is cooled from one side over its whole
    thickness. Raises: NoAnswer if the mold is as warm as the firm temperature.
    """
    left = (firm_c - mold_c) / (melt_c - mold_c)
    if float(left[0]) <= 0:
        raise NoAnswer(
            f"the mold at {mold_c[0]:.0f} °C never cools a bait to {firm_c[0]:.0f} °C: "
            "cool the mold first"
        )
    size = thickest_m if open_face else thickest_m / 2
    root, weight = _first_term(film_w_m2k * size / k_w_mk, flat=flat or open_face)
    held = np.clip(left, 0.02, 0.98)
    return np.maximum(conduction.one_term_time(held, root, weight, size, alpha_m2_s), 0.0)


def _first_term(biot: Array, *, flat: bool) -> tuple[Array, Array]:
    logs, roots, weights = _table(flat)
    at = np.log(biot)
    return np.interp(at, logs, roots), np.interp(at, logs, weights)


@functools.cache
def _table(flat: bool) -> tuple[Array, Array, Array]:
    """Roots and weights over the Biot number, fine enough for 0.01 %."""
    logs = np.linspace(np.log(1e-3), np.log(1e5), 600)
    root_of = conduction.wall_root if flat else conduction.cylinder_root
    weight_of = conduction.wall_weight if flat else conduction.cylinder_weight
    roots = np.array([root_of(float(np.exp(b))) for b in logs])
    return logs, roots, np.array([weight_of(float(r)) for r in roots])
