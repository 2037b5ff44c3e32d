"""From XYZ to Lab and to a screen's red, green and blue, and back."""

from __future__ import annotations

import re

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput

# In double or in single steps, for the fast views.
Real = NDArray[np.float64] | NDArray[np.float32]

# IEC 61966-2-1:1999, linear sRGB from XYZ with white at Y = 1.
RGB_OF_XYZ = np.array(
    [[3.2406, -1.5372, -0.4986], [-0.9689, 1.8758, 0.0415], [0.0557, -0.2040, 1.0570]]
)
# Half a step of an 8-bit screen, as linear light near black.
_GAMUT_SLACK = 0.5 / 255 / 12.92
_KNEE = 6 / 29


def lab_of(xyz: Real, white: Real) -> Array:
    """CIE 1976 L*a*b* (ISO/CIE 11664-4:2019).

    >>> [round(float(v), 9) for v in lab_of(np.array([95, 100, 108]), np.array([95, 100, 108]))]
    [100.0, 0.0, 0.0]
    """
    t = xyz / white
    f = np.where(t > _KNEE**3, np.cbrt(np.maximum(t, 0)), t / (3 * _KNEE**2) + 4 / 29)
    x, y, z = f[..., 0], f[..., 1], f[..., 2]
    return np.asarray(np.stack([116 * y - 16, 500 * (x - y), 200 * (y - z)], axis=-1), dtype=float)


def xyz_of_lab(lab: Array, white: Array) -> Array:
    """XYZ of L*a*b* against a white (ISO/CIE 11664-4:2019)."""
    y = (lab[..., 0] + 16) / 116
    f = np.stack([y + lab[..., 1] / 500, y, y - lab[..., 2] / 200], axis=-1)
    return np.asarray(white * np.where(f > _KNEE, f**3, 3 * _KNEE**2 * (f - 4 / 29)))


def srgb_of(xyz: Array) -> tuple[Array, bool]:
    """Encoded sRGB (0 to 1) of one D65 color, white at Y = 100, and whether a screen can show it.

    A color outside is brought to the nearest face of the gamut, channel by channel.
    """
    linear = linear_rgb_of(xyz / 100)
    held = np.clip(linear, 0, 1)
    inside = bool(np.all(np.abs(linear - held) <= _GAMUT_SLACK))
    return screen_curve(held), inside


def linear_rgb_of(xyz: Array) -> Array:
    """Linear sRGB of D65 XYZ, white at Y = 1 (IEC 61966-2-1:1999); below 0 where none is so pure.

    >>> linear_rgb_of(np.array([0.9505, 1, 1.089])).round(3).tolist()
    [1.0, 1.0, 1.0]
    """
    return np.asarray(xyz @ RGB_OF_XYZ.T)


def screen_curve(linear: Array) -> Array:
    """Encoded sRGB of linear light, both 0 to 1 (IEC 61966-2-1:1999)."""
    curved = 1.055 * np.maximum(linear, 1e-12) ** (1 / 2.4) - 0.055
    return np.where(linear <= 0.0031308, 12.92 * linear, curved)


def hex_of(srgb: Array) -> str:
    """A screen color as #rrggbb.

    >>> hex_of(np.array([1, 0.5, 0]))
    '#ff8000'
    """
    r, g, b = (round(float(v) * 255) for v in srgb)
    return f"#{r:02x}{g:02x}{b:02x}"


def xyz_of_hex(color_hex: str) -> Array:
    """D65 XYZ, white at Y = 100, of a screen color written #rrggbb (IEC 61966-2-1:1999).

    Raises: BadInput for anything else.

    >>> xyz_of_hex("#ffffff").round(2).tolist()
    [95.05, 100.0, 108.9]
    """
    if not re.fullmatch("#[0-9a-fA-F]{6}", color_hex):
        raise BadInput("color_hex", color_hex, "must look like #3a7f2c")
    code = np.array([int(color_hex[i : i + 2], 16) for i in (1, 3, 5)]) / 255
    linear = np.where(code <= 0.04045, code / 12.92, ((code + 0.055) / 1.055) ** 2.4)
    return np.asarray(100 * np.linalg.solve(RGB_OF_XYZ, linear))
