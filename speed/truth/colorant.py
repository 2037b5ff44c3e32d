"""True colorants on a shelf, and the reflectance of what is poured from them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.spectrum.light import BANDS
from speed.truth.ordinates import MOMENTS
from speed.truth.slab import Ports, ports


@dataclass(frozen=True, slots=True, eq=False)
class TrueColorant:
    """What 1 g of a colorant in 100 g of plastic adds per mm, on the 31 bands.

    `g` is the mean cosine of one scattering (Henyey and Greenstein, Astrophys. J. 93 (1941) 70).
    """

    name: str
    family: str
    absorb_mm: Array
    scatter_mm: Array
    g: float


@dataclass(frozen=True, slots=True, eq=False)
class Base:
    """A lot of uncolored plastic: slight haze, slight yellow; per mm on the 31 bands."""

    absorb_mm: Array
    scatter_mm: Array
    g: float


@dataclass(frozen=True, slots=True, eq=False)
class Shelf:
    """A maker's colorants, the plastic they go into with its index, and each true drop mass."""

    colorants: tuple[TrueColorant, ...]
    base: Base
    index: float
    drop_g: Array


def light_ports(shelf: Shelf, grams_per_100g: Array, thick_mm: Array, *, contact: bool) -> Ports:
    """Ports of poured slabs (samples, 31): put any number of backings under the same slab.

    Parameters: `grams_per_100g` (samples, colorants) of each colorant in 100 g of plastic;
    `thick_mm` (samples,); `contact` says poured on its card, otherwise lying on it.
    """
    absorb, scatter, weighted = _optics(shelf, grams_per_100g)
    extinct = absorb + scatter
    moments = weighted / np.maximum(scatter, 1e-12)[..., None]
    depth = extinct * np.asarray(thick_mm, dtype=float)[:, None]
    return ports(depth, scatter / extinct, moments, index=shelf.index, contact=contact)


def reflectance(
    shelf: Shelf,
    grams_per_100g: Array,
    thick_mm: Array,
    *,
    backing: Array | None,
    contact: bool,
) -> Array:
    """Reflectance (samples, 31) as a sphere meter with its gloss trap open reads it.

    `backing` (samples, 31), (31,) or, for a slab in the hand, None.
    """
    joined = light_ports(shelf, grams_per_100g, thick_mm, contact=contact and backing is not None)
    return joined.alone if backing is None else joined.over(backing)


def _optics(shelf: Shelf, grams: Array) -> tuple[Array, Array, Array]:
    """Absorption, scattering, and scattering times each moment of the phase function."""
    parts: list[Base | TrueColorant] = [shelf.base, *shelf.colorants]
    share = np.concatenate([np.ones((len(grams), 1)), grams], axis=1)
    absorb = share @ np.stack([part.absorb_mm for part in parts])
    each = share[:, :, None] * np.stack([part.scatter_mm for part in parts])
    powers = np.stack([part.g ** np.arange(MOMENTS + 1.0) for part in parts])
    weighted = np.swapaxes(each, 1, 2).reshape(-1, len(parts)) @ powers
    return absorb, each.sum(axis=1), weighted.reshape(len(grams), BANDS, -1)
