"""Layers one behind the other, told as the one even slab that looks the same.

Between the layers there is no face, so their light is summed as two fluxes; the sum over the
whole way in has a reflectance and a transmittance that some even slab has as well, and it is that
slab which the table of radiative transfer knows behind a face. Of an even bait nothing changes.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

import numpy as np

from pourwright.base.draws import Array
from pourwright.color import two_flux
from pourwright.color.octave import Single

# Less light sent back than this is none.
_DARK = np.float32(1e-7)
# Shares that differ less along a way are even.
_EVEN = 0.001
# So many ways at a time stay within the processor's cache.
_FEW = 1000


@dataclass(frozen=True, slots=True)
class Layers:
    """Absorption and reduced scattering per mm of each layer, (layers, 31) each."""

    absorb_mm: Single
    scatter_mm: Single


def even_slabs(layers: Layers, weights: Single, thick_mm: Single) -> tuple[Single, Single]:
    """Absorption and reduced scattering times thickness, (n, 31) each, of the slabs that n ways
    through the layers look like, from their near end.

    `weights` is the share of each layer in equally thick slices from the near end, (n, slices,
    layers), 0 to 1; `thick_mm` the plastic on the whole way, (n,).

    Sources: Kubelka, J. Opt. Soc. Am. 44 (1954) 330, layers one behind the other; Kubelka (1948),
    coefficients from reflectance over black and transmittance (from memory).
    """
    mean = weights.mean(axis=1)
    deep = thick_mm[:, None]
    absorb = (mean @ layers.absorb_mm) * deep
    scatter = (mean @ layers.scatter_mm) * deep
    mixed = np.flatnonzero((np.ptp(weights, axis=1) > _EVEN).any(axis=1))
    for some in np.array_split(mixed, len(mixed) // _FEW + 1):
        more = _beyond_mean(layers, weights[some], thick_mm[some])
        absorb[some] = np.maximum(absorb[some] + more[0], 0)
        scatter[some] = np.maximum(scatter[some] + more[1], 0)
    return absorb, scatter


def _beyond_mean(layers: Layers, weights: Single, thick_mm: Single) -> tuple[Single, Single]:
    """By how much the slab that looks like the layers differs from their mean."""
    slices = weights.shape[1]
    step = (thick_mm / slices)[:, None]
    first = _slice(layers, weights[:, 0], step)
    back, through, behind = first.back, first.through, first.back
    absorb, scatter = first.absorb, first.scatter
    for at in range(1, slices):
        it = _slice(layers, weights[:, at], step)
        between = through / (1 - behind * it.back)
        back = back + through * between * it.back
        behind = it.back + it.through * it.through * behind / (1 - behind * it.back)
        through = between * it.through
        absorb, scatter = absorb + it.absorb, scatter + it.scatter
    even_absorb, even_scatter = coefficients(back, through)
    more = even_absorb - absorb
    scattered = (even_scatter - scatter + more / 8) / 0.75
    return np.asarray(more / 2, np.float32), np.asarray(scattered, np.float32)


@dataclass(frozen=True, slots=True)
class _Slice:
    """Two-flux reflectance, transmittance, absorption and scattering of one slice, (n, 31) each."""

    back: Single
    through: Single
    absorb: Single
    scatter: Single


def _slice(layers: Layers, share: Single, step_mm: Single) -> _Slice:
    """A slice of mixed layers, in the precision it is given."""
    mixed = cast("tuple[Array, Array]", (share @ layers.absorb_mm, share @ layers.scatter_mm))
    absorb, scatter = two_flux.from_transport(*mixed)
    back, through = two_flux.layer(absorb, scatter, cast("Array", step_mm))
    return _Slice(
        *(np.asarray(v, np.float32) for v in (back, through, absorb * step_mm, scatter * step_mm))
    )


def coefficients(back: Single, through: Single) -> tuple[Single, Single]:
    """Two-flux absorption and scattering times thickness of an even layer.

    The inverse of `two_flux.layer` at thickness 1: from its reflectance over black and its
    transmittance, both within the plastic, together no more than 1.
    """
    tiny = np.float32(1e-30)
    light = np.maximum(through, tiny)
    shown = np.maximum(back, _DARK)
    a = (1 + shown * shown - light * light) / (2 * shown)
    b = np.sqrt(np.maximum(a * a - 1, np.float32(1e-12)))
    scatter = np.arcsinh(b * shown / light) / b
    dark = back < _DARK
    absorb = np.where(dark, -np.log(light), (a - 1) * scatter)
    return np.asarray(absorb, np.float32), np.asarray(np.where(dark, 0, scatter), np.float32)
