"""The books' plain method: one puck a colorant over black and white, two fluxes, closed form.

Kubelka and Munk (Z. tech. Phys. 12 (1931) 593), Kubelka (J. Opt. Soc. Am. 38 (1948) 448), with
the surface of Saunderson (J. Opt. Soc. Am. 32 (1942) 727) without its mirror. Works channel by
channel: on 31 bands, or on XYZ over white where a meter gives no more.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array

_K1, _K2 = 0.04, 0.60
_OPAQUE = 0.002
_LAST_DEPTH = 3.8
"""Kubelka's b S d at which a white and a black card differ by some 0.002."""


@dataclass(frozen=True, slots=True, eq=False)
class BaselineConstants:
    """Absorption and scattering per mm and gram in 100 g (colorants, channels), and the base's.

    `held` counts channels where the closed form broke down and a plainer one stood in.
    """

    absorb_mm: Array
    scatter_mm: Array
    base_absorb_mm: Array
    base_scatter_mm: Array
    held: int


def baseline_constants(
    over_black: Array,
    over_white: Array,
    *,
    black: Array,
    white: Array,
    thick_mm: float,
    grams: Array,
) -> BaselineConstants:
    """Constants from one puck of each colorant and, as the first row, one of plain plastic.

    Parameters: readings (1 + colorants, channels) of pucks `thick_mm` thick over cards that read
    `black` and `white`; `grams` (colorants,) in 100 g, as the maker believes.
    """
    absorb, scatter, held = _two_cards(over_black, over_white, black, white, thick_mm)
    dose = np.asarray(grams)[:, None]
    return BaselineConstants(
        np.maximum(absorb[1:] - absorb[0], 0) / dose,
        np.maximum(scatter[1:] - scatter[0], 0) / dose,
        absorb[0],
        scatter[0],
        held,
    )


def baseline_reflectance(
    constants: BaselineConstants, grams_per_100g: Array, *, thick_mm: float, backing: Array
) -> Array:
    """Reflectance (samples, channels) the books expect of recipes over a backing."""
    k = constants.base_absorb_mm + grams_per_100g @ constants.absorb_mm
    s = constants.base_scatter_mm + grams_per_100g @ constants.scatter_mm
    inner = two_flux(k, s, thick_mm=thick_mm, backing=backing)
    return np.asarray((1 - _K1) * (1 - _K2) * inner / (1 - _K2 * inner))


def two_flux(k: Array, s: Array, *, thick_mm: float, backing: Array) -> Array:
    """Reflectance of a layer without a surface, k and s per mm (Kubelka 1948).

    >>> round(float(two_flux(np.array(0.25), np.array(1.0), thick_mm=99, backing=np.array(0.0))), 6)
    0.5
    """
    g = np.sqrt(np.maximum(k * (k + 2 * s), 1e-18))
    fade = np.exp(-g * thick_mm)
    below = (k + s) * (1 - fade**2) + g * (1 + fade**2)
    alone, through = s * (1 - fade**2) / below, 2 * g * fade / below
    return np.asarray(alone + through**2 * backing / (1 - alone * backing))


def _two_cards(
    over_black: Array, over_white: Array, black: Array, white: Array, thick_mm: float
) -> tuple[Array, Array, int]:
    """Absorption, scattering, and how many channels a plainer closed form had to answer for."""
    dark, light = _within(over_black), _within(over_white)
    absorb, scatter = _hyperbolic(dark, light, black, white, thick_mm)
    sound = np.isfinite(absorb) & np.isfinite(scatter) & (absorb > 0) & (scatter >= 0)
    hidden = light - dark < _OPAQUE
    deep_absorb, deep_scatter = _bottomless((light + dark) / 2, thick_mm)
    tint = -np.log(np.clip(light / white, 1e-4, 1)) / (2 * thick_mm)
    absorb = np.where(hidden, deep_absorb, np.where(sound, absorb, tint))
    scatter = np.where(hidden, deep_scatter, np.where(sound, scatter, 0))
    return absorb, scatter, int((hidden | ~sound).sum())


def _hyperbolic(
    dark: Array, light: Array, black: Array, white: Array, thick_mm: float
) -> tuple[Array, Array]:
    """Kubelka's hyperbolic solution for two backings; not a number where noise contradicts it."""
    down, up = dark - black, light - white
    with np.errstate(all="ignore"):
        a = ((1 + light * white) * down - (1 + dark * black) * up) / (
            (light + white) * down - (dark + black) * up
        )
        b = np.sqrt(a**2 - 1)
        clearer = abs(down) > abs(up)
        seen, card = np.where(clearer, dark, light), np.where(clearer, black, white)
        c = (1 - a * (seen + card) + seen * card) / (seen - card)
        scatter = np.arctanh(b / c) / (b * thick_mm)
        return np.asarray((a - 1) * scatter), np.asarray(scatter)


def _bottomless(seen: Array, thick_mm: float) -> tuple[Array, Array]:
    """Where the cards no longer differ: the ratio from the color, a depth that just hides them."""
    mean = np.clip(seen, 1e-3, 0.99)
    ratio = (1 - mean) ** 2 / (2 * mean)
    scatter = _LAST_DEPTH / (thick_mm * np.sqrt(ratio * (ratio + 2)))
    return ratio * scatter, scatter


def _within(read: Array) -> Array:
    """Saunderson's correction undone: from the reading to the plastic beneath its surface."""
    return np.asarray(read / ((1 - _K1) * (1 - _K2) + _K2 * read))
