"""How the invented colorants swallow light: bands, doubled bands and edges, one family a hue.

Where the bands sit follows what textbooks print of such classes (H. Zollinger, Color Chemistry,
3rd ed., 2003, and K. Nassau, The Physics and Chemistry of Color, 2nd ed., 2001; positions from
memory, rounded). No real product is meant.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.special import expit

from pourwright.base.draws import Array
from pourwright.spectrum.light import WAVELENGTHS_NM

FINE_NM = np.arange(WAVELENGTHS_NM[0] - 5, WAVELENGTHS_NM[-1] + 6, 5.0)
_MIDDLE_NM = 550


@dataclass(frozen=True, slots=True)
class Family:
    """A hue's absorption before chance: `bands` as (middle, left width, right width, height) and
    `edges` as (middle, width, height), which swallow everything bluer; nm and relative height.
    """

    name: str
    bands: tuple[tuple[float, float, float, float], ...] = ()
    edges: tuple[tuple[float, float, float], ...] = ()
    floor: float = 0.004


YELLOW = (
    Family("yellow", ((455, 30, 24, 0.35),), ((492, 9, 1.0),)),
    Family("warm yellow", ((430, 40, 30, 0.5), (478, 18, 22, 0.6)), ((508, 11, 0.6),)),
    Family("ochre", ((470, 30, 26, 0.3), (645, 60, 60, 0.05)), ((525, 21, 1.0),), 0.02),
)
RED = (
    Family("orange", ((505, 26, 18, 0.4),), ((552, 10, 1.0),)),
    Family("red", ((518, 24, 18, 0.45), (556, 16, 14, 0.4)), ((592, 9, 0.8),)),
    Family("magenta", ((528, 24, 16, 0.8), (565, 13, 12, 1.0), (405, 30, 30, 0.15))),
    Family("rose", ((548, 40, 17, 1.0), (515, 16, 16, 0.25), (400, 20, 25, 0.12))),
    Family("brown", ((530, 60, 40, 0.25),), ((560, 38, 1.0),), 0.06),
)
BLUE = (
    Family("violet", ((542, 26, 20, 0.8), (585, 16, 15, 1.0), (635, 20, 20, 0.35))),
    Family("blue", ((594, 48, 36, 1.0), (640, 20, 25, 0.3), (400, 20, 20, 0.05))),
    Family("deep blue", ((612, 28, 22, 1.0), (665, 22, 26, 0.75), (570, 25, 25, 0.3)), (), 0.01),
    Family("cyan", ((612, 38, 24, 0.8), (668, 26, 24, 1.0), (400, 12, 25, 0.1))),
)
GREEN = (
    Family("green", ((642, 32, 22, 0.9), (695, 26, 30, 0.8), (440, 40, 26, 0.75)), (), 0.012),
    Family("dull green", ((610, 44, 38, 0.6), (420, 40, 50, 0.9), (465, 14, 14, 0.2)), (), 0.04),
    Family("teal", ((638, 40, 30, 1.0), (685, 18, 18, 0.5), (415, 20, 30, 0.35))),
)


def absorption(family: Family, rng: np.random.Generator) -> Array:
    """Absorption on the fine grid, greatest value 1, with the accidents of one colorant.

    Middles move by 4 nm (standard deviation), widths by 12 %, heights by 15 %, and a ripple of
    3 % keeps any such spectrum out of the family's own formula.
    """
    total = np.full(len(FINE_NM), family.floor * rng.lognormal(0, 0.4))
    for middle, left, right, height in family.bands:
        off = FINE_NM - middle - rng.normal(0, 4)
        bent = off / np.where(off < 0, left, right) / rng.lognormal(0, 0.12)
        total += height * rng.lognormal(0, 0.15) * np.exp(-(bent**2))
    for middle, width, height in family.edges:
        off = (FINE_NM - middle - rng.normal(0, 4)) / width / rng.lognormal(0, 0.12)
        total += height * rng.lognormal(0, 0.15) * expit(-off)
    total *= np.exp(0.03 * _ripple(rng))
    return np.asarray(total / total.max())


def black_absorption(rng: np.random.Generator) -> Array:
    """Carbon's: nearly even, bluer or browner by chance."""
    slope = rng.uniform(-0.2, 1.1)
    return np.asarray((_MIDDLE_NM / FINE_NM) ** slope * np.exp(0.01 * _ripple(rng)))


def white_absorption(rng: np.random.Generator) -> Array:
    """Titania's: the foot of an edge below 400 nm and almost nothing beyond."""
    edge = rng.uniform(394, 403)
    return np.asarray(1 / (1 + np.exp((FINE_NM - edge) / 5)) + 2e-3)


def scattering(absorbed: Array, power: float, swing: float) -> Array:
    """Scattering on the fine grid, 1 at 550 nm but for the swing at absorption edges.

    Next to a band the index, and with it the scattering, rises on the red side and falls on the
    blue one (anomalous dispersion): the Kramers-Kronig sum of the absorption over frequency.
    """
    wave = 1e4 / FINE_NM
    gap = wave[None, :] - wave[:, None]
    lift = (gap / (gap**2 + 0.25)) @ (absorbed * np.abs(np.gradient(wave)))
    lift -= lift.mean()
    lift /= max(np.abs(lift).max(), 1e-9)
    return np.asarray((_MIDDLE_NM / FINE_NM) ** power * (1 + swing * lift))


def on_bands(fine: Array) -> Array:
    """The 31 bands of a fine spectrum, each as wide as a meter's."""
    return np.asarray(fine[:-2:2] / 4 + fine[1:-1:2] / 2 + fine[2::2] / 4)


def _ripple(rng: np.random.Generator) -> Array:
    """Chance that holds together over some 15 nm, standard deviation near 1."""
    kernel = np.exp(-np.square(np.arange(-4.0, 5.0) * 5 / 15))
    rough = rng.normal(size=len(FINE_NM) + 8)
    return np.convolve(rough, kernel / np.linalg.norm(kernel), mode="valid")
