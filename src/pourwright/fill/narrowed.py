"""The filled part of the way as the skins leave it: how much it resists, and where it is shut."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array
from pourwright.fill.skin import Chill, standing_skin_m, steady_skin_m
from pourwright.fill.slice import Chain
from pourwright.physics.duct import ellipse_resistance, hydraulic_diameter_m

# The least share of its thickness at which a slice still counts as open.
THIN = 0.03


@dataclass(frozen=True, slots=True, eq=False)
class Way:
    """A chain against its mold: slices in rows, draws in columns."""

    half_width_m: Array
    half_thick_m: Array
    each_m: Array
    diameter_m: Array
    entry_root: Array
    growth: Array
    starts_s: Array
    film_m: Array
    stand_off: Array
    pace_root: Array


@dataclass(frozen=True, slots=True, eq=False)
class Narrowed:
    """Resistance of the slices filled so far, and which of them are shut."""

    resistance: Array
    shut: NDArray[np.bool_]


def way_of(chain: Chain, chill: Chill) -> Way:
    """What stays the same all through a push."""
    a, b = chain.half_width_m[:, None], chain.half_thick_m[:, None]
    return Way(
        half_width_m=a,
        half_thick_m=b,
        each_m=(chain.length_m / chain.copies)[:, None],
        diameter_m=hydraulic_diameter_m(a, b),
        entry_root=np.cbrt(chain.reach_m * chain.copies)[:, None],
        growth=chill.growth,
        starts_s=chill.starts_s,
        film_m=chill.film_m,
        stand_off=chill.stand_off,
        pace_root=np.cbrt(4 / (np.pi * chill.alpha_m2_s)),
    )


def narrowed(way: Way, viscosity_pa_s: Array, *, age_s: Array, flow_m3_s: Array) -> Narrowed:
    """The first slices, as many as `age_s` has rows, with the whole flow through them.

    The skin is that of a wall the melt has stood at for `age_s`, or that of a steady flow where
    the moving melt keeps it thinner. Without the second a gate would always set first.
    """
    upto = slice(0, len(age_s))
    graetz_root = way.pace_root * np.cbrt(flow_m3_s) / way.entry_root[upto]
    steady = steady_skin_m(way.diameter_m[upto], graetz_root, way.stand_off, way.film_m)
    standing = standing_skin_m(age_s, way.growth, way.starts_s, way.film_m)
    skin = np.minimum(standing, steady)
    b = way.half_thick_m[upto]
    left = np.maximum(b - skin, THIN * b)
    wide = way.half_width_m[upto] - b + left
    return Narrowed(
        ellipse_resistance(viscosity_pa_s, way.each_m[upto], wide, left), left <= THIN * b
    )
