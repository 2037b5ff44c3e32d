"""Two-flux light in a layer that absorbs and scatters, inside its faces.

Sources: Kubelka and Munk, Z. tech. Phys. 12 (1931) 593; Kubelka, J. Opt. Soc. Am. 38 (1948) 448
(bibliography from memory).
"""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array


def layer(absorb_mm: Array, scatter_mm: Array, thick_mm: Array) -> tuple[Array, Array]:
    """Reflectance over black and transmittance of a layer.

    Absorption and scattering per mm, thickness in mm; all zero or more, broadcast together.
    Written with (1 - exp(-2gd))/g, so that no limit divides by zero: without scattering the
    transmittance is exp(-Kd), without absorption the reflectance is Sd/(1 + Sd).
    """
    g = np.sqrt(absorb_mm * (absorb_mm + 2 * scatter_mm))
    fade = np.exp(-g * thick_mm)
    span = _span(g, thick_mm)
    below = (absorb_mm + scatter_mm) * span + 1 + fade**2
    return np.asarray(scatter_mm * span / below), np.asarray(2 * fade / below)


def from_transport(absorb: Array, scatter: Array) -> tuple[Array, Array]:
    """Two-flux absorption and scattering of an absorption and a reduced scattering coefficient.

    Source: Mudgett and Richards, Appl. Opt. 10 (1971) 1485, the diffuse limit (from memory).
    """
    return 2 * absorb, np.maximum(0.75 * scatter - 0.25 * absorb, 0)


def over(reflect: Array, transmit: Array, ground: Array) -> Array:
    """Reflectance of a layer over a ground, both as seen from within.

    Source: Kubelka (1948), the sum over all passes between layer and ground.
    """
    return np.asarray(reflect + transmit**2 * ground / (1 - reflect * ground))


def _span(g: Array, thick_mm: Array) -> Array:
    clear = g * thick_mm < 1e-9
    held = np.where(clear, 1.0, g)
    return np.where(clear, 2.0 * thick_mm, -np.expm1(-2 * g * thick_mm) / held)
