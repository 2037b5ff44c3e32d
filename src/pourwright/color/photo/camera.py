"""What a camera's red, green and blue say of a color, before any fit."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.spectrum.color_space import xyz_of_hex

# D65 XYZ of a screen's red, green and blue at full, white at Y = 100.
PRIMARIES = np.array([xyz_of_hex(full) for full in ("#ff0000", "#00ff00", "#0000ff")])

# Precision of coefficients that turn colors with white at 0.9 into XYZ with white at 100: the
# linear ones nearly free, the roots held small, since 24 patches tell little of them; chosen on
# generated cameras, where a hundredth or a hundred times as much changes the miss by less than a
# tenth.
ROOT_PRIOR = np.array([1e-4] * 3 + [0.05] * 3)
GAIN_PRIOR = np.array([1e-4])

# How much of a channel's distance from gray leaks into each channel of a camera that only claims
# sRGB; estimate.
MIXING = 0.2


def root_monomials(linear: Array) -> Array:
    """Root-polynomial terms of second degree, the same for X, Y and Z: (n, 3, 6).

    Linear color above 0 in; the terms grow with the light as the color itself does, so that an
    unevenly lit target still fits.
    Source: Finlayson, Mackiewicz and Hurlbert, IEEE Trans. Image Process. 24 (2015) 1460.

    >>> root_monomials(np.array([[4.0, 1.0, 9.0]]))[0, 0].tolist()
    [4.0, 1.0, 9.0, 2.0, 3.0, 6.0]
    """
    red, green, blue = linear.T
    terms = [red, green, blue, np.sqrt(red * green), np.sqrt(green * blue), np.sqrt(red * blue)]
    return np.repeat(np.stack(terms, axis=1)[:, None], 3, axis=1)


def gain_monomials(linear: Array) -> Array:
    """Each channel by itself: (n, 3, 1)."""
    return linear[..., None]


def weight_of(luminance: Array) -> Array:
    """One over how far a color of that luminance (white 100) is usually missed by, in XYZ.

    About 0.6 in L*, as the eye counts lightness (the slope of CIE 1976 L*); a floor keeps black
    from ruling the fit. Estimate.
    """
    return np.asarray(1 / (0.07 * (np.maximum(luminance, 0) + 3) ** (2 / 3)))
