"""Two-flux reflectance of a layer over a ground, with the surface's own reflections.

Source: Kubelka and Munk, Z. tech. Phys. 12 (1931) 593; Kubelka, J. Opt. Soc. Am. 38 (1948) 448;
Saunderson, J. Opt. Soc. Am. 32 (1942) 727 (bibliography from memory).
"""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array

# A face of index 1.5: normal Fresnel, and diffuse light from within and without
# (Judd, J. Res. NBS 29 (1942) 329, from memory; recomputed).
FACE_OUT = 0.0400
FACE_IN = 0.5963
FACE_DIFFUSE_OUT = 0.0918


def layer(absorb_mm: Array, scatter_mm: Array, thick_mm: Array) -> tuple[Array, Array]:
    """Reflectance over black and transmittance of a layer, inside its faces.

    Absorption and scattering per mm, thickness in mm; all non-negative, broadcast together.
    """
    k = np.maximum(absorb_mm, 1e-12)
    g = np.sqrt(k * (k + 2 * scatter_mm))
    fade = np.exp(-np.minimum(g * thick_mm, 300.0))
    below = (k + scatter_mm) * (1 - fade**2) + g * (1 + fade**2)
    return scatter_mm * (1 - fade**2) / below, 2 * g * fade / below


def over(reflect: Array, transmit: Array, ground: Array) -> Array:
    """Reflectance of a layer over a ground, both as seen from within."""
    return np.asarray(reflect + transmit**2 * ground / (1 - reflect * ground))


def seen_through_face(inside: Array, *, gloss: bool = False) -> Array:
    """What leaves through the face; with `gloss`, the mirror light is counted too."""
    out = (1 - FACE_OUT) * (1 - FACE_IN) * inside / (1 - FACE_IN * inside)
    return np.asarray(out + (FACE_OUT if gloss else 0.0))


def ground_under_air(ground: Array) -> Array:
    """A ground with an air gap above it, as seen from within the bait."""
    return np.asarray(
        FACE_IN + (1 - FACE_IN) * (1 - FACE_DIFFUSE_OUT) * ground / (1 - FACE_DIFFUSE_OUT * ground)
    )
