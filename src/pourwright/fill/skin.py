"""The skin of set plastic that grows on the wall of the mold and narrows the way."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.special import erfcx, erfinv

from pourwright.base.draws import Array, Draws
from pourwright.matter import plastisol
from pourwright.matter.mold_material import CONTACT_FILM, MoldMaterial, effusivity
from pourwright.matter.setting import SETS_C
from pourwright.physics.conduction import contact_c
from pourwright.physics.duct import nusselt_of_root

# Below the first nothing sets within any push; the steps reach it to the last digit.
_LEAST_LEFT, _STEPS = 1e-3, 16


@dataclass(frozen=True, slots=True, eq=False)
class Chill:
    """Hot plastic against a mold; each a draw.

    `face_c` is the touch of two thick bodies (Incropera and DeWitt, 6th ed., eq. 5.63). Between
    it and the plastic lies a film that hinders the heat as much as `film_m` of plastic would; 0
    where they touch closely.
    """

    melt_c: Array
    face_c: Array
    sets_c: Array
    alpha_m2_s: Array
    film_m: Array

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
    def starts_s(self) -> Array:
        """When the wall of the plastic itself, behind the film, has cooled so far that it sets."""
        return np.asarray((self.film_m * _filmed_root(self.left)) ** 2 / self.alpha_m2_s)

    def filmed_m(self, size_m: float | Array) -> Array:
        """A thickness or diameter as it cools: thicker by the film on either face.

        That slows the first term of the series as the film does, to 1 % from Bi = 4 on (Incropera
        and DeWitt, 6th ed., table 5.1).
        """
        return np.asarray(size_m + 2 * self.film_m)

    @property
    def stand_off(self) -> Array:
        """Drop of temperature over the skin against that over the melt, in a steady flow."""
        drop = np.maximum(self.sets_c - self.face_c, 0.0)
        return np.asarray(drop / np.maximum(self.melt_c - self.sets_c, 1e-9))


def chill(draws: Draws, *, melt_c: Array, mold_c: Array, material: MoldMaterial) -> Chill:
    """Plastic and mold with the properties the whole house draws."""
    alpha, k = plastisol.DIFFUSIVITY_M2_S.drawn(draws), plastisol.CONDUCTIVITY_W_MK.drawn(draws)
    face = contact_c(melt_c, plastisol.effusivity(k, alpha), mold_c, effusivity(material))
    film = np.asarray(k / CONTACT_FILM.drawn(draws))
    return Chill(melt_c, face, SETS_C.drawn(draws), alpha, film)


def standing_skin_m(age_s: Array, growth: Array, starts_s: Array, film_m: Array) -> Array:
    """Skin on a wall at which the melt has stood for so long.

    Without a film `growth`·√age. With one it starts late and, from then on, as if the film were
    plastic that has set already: exact at its start and late, in between thin by a fifth of
    `film_m` at most. Source of the exact course: Incropera and DeWitt, 6th ed., eq. 5.60.
    """
    grown = growth**2 * np.maximum(age_s - starts_s, 0.0)
    return np.asarray(np.sqrt(grown + film_m**2) - film_m)


def steady_skin_m(
    diameter_m: Array, graetz_root: Array, stand_off: Array, film_m: Array | float
) -> Array:
    """Skin past which the moving melt brings as much heat as skin and film let through.

    Source: the balance of both flows of heat, with the Nusselt number of a laminar flow to a wall
    of one temperature, here that of setting; see `physics.duct.nusselt_of_root`.
    """
    through = stand_off * diameter_m / nusselt_of_root(graetz_root)
    return np.maximum(through - film_m, 0.0)


def _filmed_root(left: Array) -> Array:
    """√(α·t) over the film's `film_m` at which the wall behind it keeps a share of its excess.

    Newton's steps for exp(z²)·erfc(z) = left, a falling curve bent upward, from its start.
    Source: Incropera and DeWitt, 6th ed., eq. 5.60 at the wall.
    """
    wanted = np.clip(left, _LEAST_LEFT, 1.0)
    z = np.zeros_like(wanted)
    for _ in range(_STEPS):
        now = erfcx(z)
        z = z + (now - wanted) / (2 / np.sqrt(np.pi) - 2 * z * now)
    return np.asarray(z)
