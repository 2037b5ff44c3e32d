"""A plausible reflectance for a color of which only XYZ is known."""

from __future__ import annotations

import functools

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import NoAnswer
from pourwright.spectrum.light import BANDS, WEIGHTS, Light, white_xyz

# Paints and plastics stay within this share of a perfect white; estimate.
BLACKEST = 0.003
WHITEST = 0.985
# Room for the rounding of a screen's matrix.
_SLACK = 1e-3
_STEPS = 40
_CLOSE_ENOUGH = 1e-9


def smooth_spectrum(xyz: Array) -> Array:
    """The smoothest reflectance, strictly between 0 and 1, that shows a D65 color.

    X, Y and Z from 0 to white; each is held between 0.3 and 98.5 % of white, since no plastic is
    blacker or whiter. An estimate: countless spectra share a color.
    Raises: NoAnswer for a color no surface can show in daylight.
    Source: S. A. Burns, Color Res. Appl. 45 (2020) 8, least squared slope of the arctanh.
    """
    white = white_xyz()
    if np.any(xyz < -_SLACK * white) or np.any(xyz > (1 + _SLACK) * white):
        raise _impossible(*xyz)
    held = np.clip(xyz, BLACKEST * white, WHITEST * white)
    return _solved(*(float(v) for v in held))


@functools.lru_cache(maxsize=512)
def _solved(*xyz: float) -> Array:
    # Reflectance (1 + tanh z) / 2; Newton on the Lagrange conditions of
    # min |slope of z|² under the three color equations.
    slope = np.diff(np.eye(BANDS), axis=0)
    smoothness = 2 * slope.T @ slope
    weights = WEIGHTS[Light.D65] / 100
    z, pull = np.zeros(BANDS), np.zeros(3)
    jacobian = np.zeros((BANDS + 3, BANDS + 3))
    for _ in range(_STEPS):
        bent = np.tanh(z)
        rise = (1 - bent**2) / 2
        push = weights @ pull
        miss = weights.T @ ((1 + bent) / 2) - np.array(xyz) / 100
        residual = np.concatenate([smoothness @ z + rise * push, miss])
        if np.abs(residual).max() < _CLOSE_ENOUGH:
            found = (1 + bent) / 2
            found.setflags(write=False)
            return found
        sides = rise[:, None] * weights
        jacobian[:BANDS, :BANDS] = smoothness + np.diag(-2 * rise * bent * push)
        jacobian[:BANDS, BANDS:] = sides
        jacobian[BANDS:, :BANDS] = sides.T
        try:
            step = np.linalg.solve(jacobian, -residual)
        except np.linalg.LinAlgError:
            break
        z, pull = z + step[:BANDS], pull + step[BANDS:]
    raise _impossible(*xyz)


def _impossible(x: float, y: float, z: float) -> NoAnswer:
    return NoAnswer(f"no surface shows the color X {x:.1f}, Y {y:.1f}, Z {z:.1f} in daylight")
