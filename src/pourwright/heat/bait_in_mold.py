"""A bait and its mold: the bait cools while the mold warms, then the open mold cools."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.physics.conduction import Solid
from pourwright.physics.cooling_body import (
    Cooling,
    CoolingBody,
    cooling,
    cooling_body,
    even,
    halved,
)

LONGEST_S = 3600.0
# Fine enough for half a percent of the exact series in a mold that stays cold.
_CELLS = 12


@dataclass(frozen=True, slots=True, eq=False)
class Shot:
    """The hot plastic of one shot, feed included, taken as thick as its thickest place."""

    thickest_m: Array
    flat: bool
    heat_j_k: Array
    melt_c: Array
    firm_c: Array
    alpha_m2_s: Array
    k_w_mk: Array


@dataclass(frozen=True, slots=True, eq=False)
class Mold:
    """A mold of one temperature; with a film of air it is open and cools one face only."""

    heat_j_k: Array
    loss_w_k: Array
    film_w_m2k: Array
    ambient_c: Array
    air_film_w_m2k: Array | None = None

    def rested_c(self, mold_c: Array, seconds: Array) -> Array:
        """The empty mold after a rest on the bench."""
        fade = np.exp(-self.loss_w_k * seconds / self.heat_j_k)
        return np.asarray(self.ambient_c + (mold_c - self.ambient_c) * fade)

    def dipped_c(self, mold_c: Array, *, seconds: float, water_c: Array, dip_w_k: Array) -> Array:
        """The empty mold after a dip in water that stays as cold as it was."""
        fade = np.exp(-dip_w_k * seconds / self.heat_j_k)
        return np.asarray(water_c + (mold_c - water_c) * fade)


@dataclass(frozen=True, slots=True, eq=False)
class BaitInMold:
    """A shot in its mold; its modes serve any temperature of the mold."""

    shot: Shot
    mold: Mold
    body: CoolingBody

    def poured(self, mold_c: Array) -> Cooling:
        """From the moment the mold is full."""
        air = self.mold.ambient_c
        return cooling(self.body, body_k=self.shot.melt_c - air, lump_k=mold_c - air)

    def open_s(self, poured: Cooling) -> Array:
        """Seconds until the hottest place is firm; an hour at most."""
        firm = self.shot.firm_c - self.mold.ambient_c
        read = poured.middle_k if self.mold.air_film_w_m2k is None else poured.hottest_k
        return halved(lambda t: read(t) > firm, like=firm, longest_s=LONGEST_S)

    def mold_c(self, poured: Cooling, seconds: Array) -> Array:
        """The mold after so long around its shot."""
        return self.mold.ambient_c + poured.lump_k(seconds)


def bait_in_mold(shot: Shot, mold: Mold) -> BaitInMold:
    """The modes of a rod or a slab in its mold."""
    open_face = mold.air_film_w_m2k is not None
    body = cooling_body(
        Solid.SLAB if shot.flat or open_face else Solid.CYLINDER,
        size_m=shot.thickest_m if open_face else shot.thickest_m / 2,
        k_w_mk=shot.k_w_mk,
        alpha_m2_s=shot.alpha_m2_s,
        heat_j_k=shot.heat_j_k,
        film_w_m2k=mold.film_w_m2k,
        lump_j_k=mold.heat_j_k,
        loss_w_k=mold.loss_w_k,
        far_film_w_m2k=mold.air_film_w_m2k,
        edge=even(2 * _CELLS if open_face else _CELLS),
    )
    return BaitInMold(shot, mold, body)
