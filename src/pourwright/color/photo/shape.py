"""A likely reflectance for a color read off a photo, with its range."""

from __future__ import annotations

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Z90, Array
from pourwright.spectrum.light import BANDS, WEIGHTS, Light
from pourwright.spectrum.patches import PATCH_REFLECTANCE

# The patches alone are too few to stand for all dyes: smooth shapes of this variance (in the
# logit of reflectance) and reach (in bands) are added. Chosen on the 99 samples of TM-30 and on
# generated dyes; estimates.
_MORE, _REACH = 1.0, 16.0
_STEPS = 12
# XYZ that can be told apart anyhow, as a share of white.
_LEAST = 0.003
_WEIGHTS = WEIGHTS[Light.D65] / 100


def _logit(share: Array) -> Array:
    return np.asarray(np.log(share / (1 - share)))


def _spread() -> tuple[Array, Array]:
    known = _logit(np.clip(PATCH_REFLECTANCE, 0.005, 0.99))
    apart = abs(np.subtract.outer(np.arange(BANDS), np.arange(BANDS)))
    more = _MORE * np.exp(-apart / _REACH)
    return known.mean(axis=0), np.cov(known, rowvar=False) + more


_MIDDLE, _COVARIANCE = _spread()


def likely_reflectance(xyz: Array, doubt: Array) -> tuple[Band, ...]:
    """Reflectance on the 31 bands given D65 XYZ (white at Y = 100) and its covariance.

    A Wiener estimate in the logit of reflectance, so that it stays between 0 and 1, under the
    mean and covariance of the 24 patches widened by smooth shapes. The range is of one band
    alone; bands miss together.
    Source: Haneishi et al., Appl. Opt. 39 (2000) 6621 (from memory), for the linear estimate.
    """
    noise = doubt / 1e4 + np.eye(3) * _LEAST**2
    at, gain, slope = _MIDDLE, np.zeros((BANDS, 3)), np.zeros((3, BANDS))
    for _ in range(_STEPS):
        share = 1 / (1 + np.exp(-at))
        slope = (_WEIGHTS * (share * (1 - share))[:, None]).T
        gain = _COVARIANCE @ slope.T @ np.linalg.inv(slope @ _COVARIANCE @ slope.T + noise)
        at = _MIDDLE + gain @ (xyz / 100 - share @ _WEIGHTS + slope @ (at - _MIDDLE))
    wide = Z90 * np.sqrt(np.maximum(np.diag(_COVARIANCE - gain @ slope @ _COVARIANCE), 0))
    ends = (1 / (1 + np.exp(-(at + side * wide))) for side in (-1, 0, 1))
    return tuple(Band(*(float(v) for v in band)) for band in zip(*ends, strict=True))
