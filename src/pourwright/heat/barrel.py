"""Hot plastic in the barrel of an injector."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.matter import plastisol
from pourwright.matter.mold_material import MoldMaterial, volume_heat_j_m3k
from pourwright.physics.conduction import Solid
from pourwright.physics.cooling_body import Cooling, cooling, cooling_body, fine_at_face, halved

LONGEST_S = 1800.0
# Free convection and radiation off a warm tube: estimate.
OUTSIDE_FILM_W_M2K = 12.0
# A third of a kelvin in the mean from three seconds on.
_CELLS = 14
_MELT = np.array(165.0)


@dataclass(frozen=True, slots=True, eq=False)
class Barrel:
    """An aluminum barrel full of plastic; each array has the shape of a draw."""

    bore_m: Array
    wall_m: Array
    alpha_m2_s: Array
    k_w_mk: Array
    film_w_m2k: Array
    ambient_c: Array


@dataclass(frozen=True, slots=True, eq=False)
class Filled:
    """A barrel from the moment it is drawn full."""

    cooling: Cooling
    ambient_c: Array

    def mean_c(self, seconds: Array) -> Array:
        """Mean of the plastic."""
        return self.ambient_c + self.cooling.mean_k(seconds)

    def wall_c(self, seconds: Array) -> Array:
        """The barrel itself."""
        return self.ambient_c + self.cooling.lump_k(seconds)

    def colder_share(self, seconds: Array, limit_c: float) -> Array:
        """Share of the plastic below a limit, 0 to 1: the skin that will not flow."""
        cells = self.ambient_c[:, None] + self.cooling.cells_k(seconds)
        return np.asarray((cells < limit_c) @ self.cooling.of.volume)

    def window_s(self, least_c: float) -> Array:
        """Seconds until the mean falls to a limit; half an hour at most."""
        return halved(lambda t: self.mean_c(t) > least_c, like=self.ambient_c, longest_s=LONGEST_S)


def filled(barrel: Barrel, *, melt_c: float, barrel_c: Array) -> Filled:
    """A barrel of `barrel_c` drawn full of plastic of one temperature.

    Rod against a wall of one temperature, through a contact film; the wall warms, and loses heat
    to the room.
    """
    inside, outside = barrel.bore_m / 2, barrel.bore_m / 2 + barrel.wall_m
    body = cooling_body(
        Solid.CYLINDER,
        size_m=inside,
        k_w_mk=barrel.k_w_mk,
        alpha_m2_s=barrel.alpha_m2_s,
        heat_j_k=barrel.k_w_mk / barrel.alpha_m2_s * np.pi * inside**2,
        film_w_m2k=barrel.film_w_m2k,
        lump_j_k=volume_heat_j_m3k(MoldMaterial.ALUMINUM) * np.pi * (outside**2 - inside**2),
        loss_w_k=OUTSIDE_FILM_W_M2K * 2 * np.pi * outside,
        edge=fine_at_face(_CELLS),
    )
    start = cooling(body, body_k=melt_c - barrel.ambient_c, lump_k=barrel_c - barrel.ambient_c)
    return Filled(start, barrel.ambient_c)


def mixed_c(bore: Array, wall: Array, melt_c: float, barrel_c: Array) -> Array:
    """Temperature of plastic and barrel after they have shared their heat; any unit of length."""
    radius = bore / 2
    metal = volume_heat_j_m3k(MoldMaterial.ALUMINUM) * ((radius + wall) ** 2 - radius**2)
    melt = plastisol.HOT_DENSITY_G_ML.typical * 1000 * plastisol.heat_capacity_j_kgk(_MELT)
    ratio = melt * radius**2 / metal
    return np.asarray((ratio * melt_c + barrel_c) / (ratio + 1))
