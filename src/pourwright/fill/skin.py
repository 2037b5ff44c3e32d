"""The skin of set plastic that grows on the wall of the mold and narrows the way."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.special import erfinv

from pourwright.base.draws import Array, Draws
from pourwright.matter import plastisol
from pourwright.matter.mold_material import MoldMaterial, effusivity
from pourwright.matter.setting import SETS_C
from pourwright.physics.conduction import contact_c
from pourwright.physics.duct import nusselt_of_root


@dataclass(frozen=True, slots=True, eq=False)
class Chill:
    """Hot plastic against a mold; each a draw.

    `face_c` is the touch of two thick bodies (Incropera and DeWitt, 6th ed., eq. 5.63): pushed
    plastic lies close against the wall, so no film is put between.
    """

    melt_c: Array
    face_c: Array
    sets_c: Array
    alpha_m2_s: Array

    @property
    def fluid(self) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
        """Whether the plastic flows at all."""
        return np.asarray(self.melt_c > self.sets_c)

    @property
    def left(self) -> Array:
        """Share of the excess over the face at which it sets; 0 or less where it never does."""
        return np.asarray((self.sets_c - self.face_c) / (self.melt_c - self.face_c))

    @property
    def growth(self) -> Array:
        """Thickness of the skin on a wide wall over the root of time, m/√s.

        The depth at which erf(x / 2√(αt)) is `left` (same work, eq. 5.57).
        """
        return np.asarray(2 * erfinv(np.clip(self.left, 0.0, 0.999999)) * np.sqrt(self.alpha_m2_s))

    @property
    def stand_off(self) -> Array:
        """Drop of temperature over the skin against that over the melt, in a steady flow."""
        drop = np.maximum(self.sets_c - self.face_c, 0.0)
        return np.asarray(drop / np.maximum(self.melt_c - self.sets_c, 1e-9))


def chill(draws: Draws, *, melt_c: Array, mold_c: Array, material: MoldMaterial) -> Chill:
    """Plastic and mold with the properties the whole house draws."""
    alpha = plastisol.DIFFUSIVITY_M2_S.drawn(draws)
    hot = plastisol.effusivity(plastisol.CONDUCTIVITY_W_MK.drawn(draws), alpha)
    face = contact_c(melt_c, hot, mold_c, effusivity(material))
    return Chill(melt_c, face, SETS_C.drawn(draws), alpha)


def steady_skin_m(diameter_m: Array, graetz_root: Array, stand_off: Array) -> Array:
    """Skin past which the moving melt brings as much heat as the skin lets through.

    Source: the balance of both flows of heat, with the Nusselt number of a laminar flow to a wall
    of one temperature, here that of setting; see `physics.duct.nusselt_of_root`.
    """
    return np.asarray(stand_off * diameter_m / nusselt_of_root(graetz_root))
