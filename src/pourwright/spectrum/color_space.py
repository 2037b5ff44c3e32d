"""From a spectrum to XYZ, Lab and a screen's red, green and blue."""

from __future__ import annotations

from enum import StrEnum

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.spectrum import weights

WAVELENGTHS_NM = np.arange(400.0, 701.0, 10.0)
BANDS = len(WAVELENGTHS_NM)


class Light(StrEnum):
    """Lights a bait is looked at in."""

    D65 = "D65"
    A = "A"


_WEIGHTS = {Light.D65: np.array(weights.D65), Light.A: np.array(weights.A)}

# IEC 61966-2-1:1999, linear sRGB from XYZ with white at Y = 1.
_RGB_OF_XYZ = np.array(
    [[3.2406, -1.5372, -0.4986], [-0.9689, 1.8758, 0.0415], [0.0557, -0.2040, 1.0570]]
)


def white_xyz(light: Light = Light.D65) -> Array:
    """XYZ of a perfect white under a light."""
    return np.asarray(_WEIGHTS[light].sum(axis=0))


def xyz_of(spectrum: Array, light: Light = Light.D65) -> Array:
    """XYZ of reflectances whose last axis has 31 bands."""
    return np.asarray(spectrum @ _WEIGHTS[light])


def lab_of(xyz: Array, white: Array) -> Array:
    """CIE 1976 L*a*b* (ISO/CIE 11664-4)."""
    t = xyz / white
    f = np.where(t > (6 / 29) ** 3, np.cbrt(np.maximum(t, 0)), t * (29 / 6) ** 2 / 3 + 4 / 29)
    x, y, z = f[..., 0], f[..., 1], f[..., 2]
    return np.stack([116 * y - 16, 500 * (x - y), 200 * (y - z)], axis=-1)


def srgb_of(xyz: Array) -> tuple[Array, bool]:
    """Encoded sRGB of D65 XYZ (white at Y = 100), 0 to 1, and whether it lies in the gamut."""
    linear = xyz / 100 @ _RGB_OF_XYZ.T
    inside = bool(np.all(linear > -0.002) and np.all(linear < 1.002))
    held = np.clip(linear, 0, 1)
    curved = 1.055 * np.maximum(held, 1e-12) ** (1 / 2.4) - 0.055
    return np.where(held <= 0.0031308, 12.92 * held, curved), inside


def hex_of(srgb: Array) -> str:
    """A color as #rrggbb."""
    r, g, b = (round(float(v) * 255) for v in srgb)
    return f"#{r:02x}{g:02x}{b:02x}"


def xyz_of_hex(color_hex: str) -> Array:
    """D65 XYZ, white at Y = 100, of a color written #rrggbb.

    Raises: BadInput for anything else.
    """
    try:
        code = np.array([int(color_hex[i : i + 2], 16) for i in (1, 3, 5)]) / 255
    except (ValueError, IndexError) as error:
        raise BadInput("color_hex", color_hex, "must look like #3a7f2c") from error
    linear = np.where(code <= 0.04045, code / 12.92, ((code + 0.055) / 1.055) ** 2.4)
    return np.asarray(100 * np.linalg.solve(_RGB_OF_XYZ, linear))


def smooth_spectrum(xyz: Array) -> Array:
    """The smoothest reflectance of that D65 color, held between 2 and 98 %.

    Least sum of squared slopes under the three color equations (a Lagrange system); an estimate,
    since countless spectra share a color.
    """
    slopes = np.diff(np.eye(BANDS), axis=0)
    w = _WEIGHTS[Light.D65]
    system = np.block([[2 * slopes.T @ slopes, w], [w.T, np.zeros((3, 3))]])
    found = np.linalg.solve(system, np.concatenate([np.zeros(BANDS), xyz]))
    return np.clip(found[:BANDS], 0.02, 0.98)
