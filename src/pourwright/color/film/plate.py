"""One pearl flake: a thin plate of mica with a film of titania on both faces."""

from __future__ import annotations

import functools
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.face import PLASTIC_INDEX
from pourwright.color.film.stack import Layer, mirrored_s_p
from pourwright.color.sheen import SHEEN_ANGLES_RAD
from pourwright.matter import mica
from pourwright.matter.titania import SODIUM_NM, Titania, dense_index
from pourwright.spectrum.light import WAVELENGTHS_NM

# Films that a powder may have.
THINNEST_NM, THICKEST_NM = 10.0, 500.0
# Flakes of one powder differ in the thickness of their mica, to either side; estimate.
CORE_SPREAD = 0.5
# Enough to average three fringes of the mica and their second and third overtones.
_NODES, _SHARES = np.polynomial.legendre.leggauss(24)


@dataclass(frozen=True, slots=True)
class Plate:
    """What a flake is made of, films aside, and what lies around it.

    `core_spread` is the share by which mica is thinner or thicker, evenly spread; `film_index`
    that of the film at 589 nm where pores make it less than dense titania.
    """

    form: Titania = Titania.RUTILE
    film_index: float | None = None
    core_nm: float = mica.CORE_NM.typical
    core_spread: float = CORE_SPREAD
    core_index: float = mica.INDEX.typical
    around: float = PLASTIC_INDEX

    def index(self, wave_nm: Array) -> Array:
        """Index of the film."""
        dense = dense_index(self.form, wave_nm)
        if self.film_index is None:
            return dense
        return np.asarray(dense * self.film_index / dense_index(self.form, SODIUM_NM))

    def thick_nm(self, film_nm: float) -> float:
        """The whole flake with both of its films."""
        return self.core_nm + 2 * film_nm


def mirrored(
    plate: Plate, film_nm: Array, angle_rad: Array, wave_nm: Array = WAVELENGTHS_NM
) -> Array:
    """Reflectance of flakes with films of that thickness, at angles of incidence in the plastic.

    Unpolarized, the mean over the thicknesses of the mica; shape (films, angles, wavelengths).
    """
    film = Layer(plate.index(wave_nm), np.asarray(film_nm)[:, None, None, None])
    core_nm = plate.core_nm * (1 + plate.core_spread * _NODES)
    core = Layer(np.array(plate.core_index), core_nm[:, None])
    s, p = mirrored_s_p(
        [film, core, film],
        around=plate.around,
        angle_rad=np.asarray(angle_rad)[None, :, None, None],
        wave_nm=wave_nm,
    )
    return np.asarray(np.einsum("fanw,n->faw", (s + p) / 2, _SHARES / 2))


@functools.lru_cache(maxsize=256)
def sheen_table(plate: Plate, film_nm: float) -> Array:
    """Reflectance at `SHEEN_ANGLES_RAD`, (13, 31)."""
    found = np.asarray(mirrored(plate, np.array([film_nm]), SHEEN_ANGLES_RAD)[0])
    found.setflags(write=False)
    return found
