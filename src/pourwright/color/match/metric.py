"""CIEDE2000 as an ordinary distance: exact near a color, rough everywhere."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.spectrum.difference import delta_e00

_REACH = 0.5
_AXES = np.eye(3)
_PAIRS = ((0, 1), (0, 2), (1, 2))


def evened(labs: Array) -> Array:
    """Colors, (..., 3), so stretched that their plain distance is about CIEDE2000, far apart too.

    Lightness and chroma are what one gets by adding up small steps of CIEDE2000's units,
    1 + 0.015·|L* - 50| and 1 + 0.045·C; the logarithm of chroma is that of DIN 6176 (from memory),
    a* of grays is stretched as in Sharma, Wu and Dalal (2005), eqs. 4 and 5.
    """
    light, a, b = np.moveaxis(labs, -1, 0)
    chroma7 = np.hypot(a, b) ** 7
    a = a * (1.5 - 0.5 * np.sqrt(chroma7 / (chroma7 + 25.0**7)))
    chroma = np.maximum(np.hypot(a, b), 1e-9)
    shrink = np.log1p(0.045 * chroma) / 0.045 / chroma
    off = light - 50
    return np.stack([np.sign(off) * np.log1p(0.015 * abs(off)) / 0.015, a * shrink, b * shrink], -1)


def frames(labs: Array) -> Array:
    """Frames F, (n, 3, 3): the length of F·(color less the one at it) is CIEDE2000 nearby.

    The squared difference is measured along the axes and along their sums; a color's own
    stretches, weights and rotation come with it.
    """
    squares = np.zeros((len(labs), 3, 3))
    for i in range(3):
        squares[:, i, i] = _square(labs, _AXES[i])
    for i, j in _PAIRS:
        mixed = _square(labs, _AXES[i] + _AXES[j]) - squares[:, i, i] - squares[:, j, j]
        squares[:, i, j] = squares[:, j, i] = mixed / 2
    return np.asarray(np.linalg.cholesky(squares).transpose(0, 2, 1))


def _square(labs: Array, step: Array) -> Array:
    off = _REACH * step / 2
    return np.asarray((delta_e00(labs + off, labs - off) / _REACH) ** 2)
