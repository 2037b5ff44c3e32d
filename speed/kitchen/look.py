"""What only the kitchen knows of a cup, and what a thermometer says of it."""

from __future__ import annotations

import numpy as np

from speed.kitchen.air import surface_w_m2k
from speed.kitchen.cups import Cups
from speed.kitchen.draws import Array
from speed.kitchen.grid import RING_SHARE, RINGS, ROW_EDGE, ROW_SHARE, ROWS, plastic_mean
from speed.kitchen.plastic import conductivity_w_mk, density_kg_m3, heat_capacity_j_kgk

BOTTOM_SHARE = np.diff(np.minimum(ROW_EDGE, 0.1))
SPOT_RINGS = round(0.6 * RINGS)
MIDDLE = (slice(ROWS // 3, 2 * ROWS // 3), slice(0, RINGS // 2))
INFRARED_NOISE_K, PROBE_NOISE_K, STROKE = 1.2, 0.5, 0.25


def mean_c(cups: Cups) -> Array:
    """Of the plastic, by mass."""
    return plastic_mean(cups.plastic_c)


def hottest_c(cups: Cups) -> Array:
    """The hottest plastic cell now; `cups.peak_c` is the hottest ever."""
    return np.asarray(cups.plastic_c.max(axis=(0, 1)))


def bottom_c(cups: Cups) -> Array:
    """Of the lowest tenth of the plastic."""
    return _bottom(cups.plastic_c)


def fused(cups: Cups) -> Array:
    """Share of the plastic fused."""
    return plastic_mean(cups.ripeness.fused)


def bottom_fused(cups: Cups) -> Array:
    """The same for the lowest tenth."""
    return _bottom(cups.ripeness.fused)


def surface_c(cups: Cups) -> Array:
    """What truly glows: the upper face over the inner rings, above half a cell of skin."""
    room, top = cups.ovens.room, cups.plastic_c[-1]
    off = surface_w_m2k(room, top, cups.ovens.glass.inner_m)
    skin = cups.cells().high[-1] / (2 * conductivity_w_mk(cups.ovens.plastic, top))
    face = room.temp_c + (top - room.temp_c) / (1 + off * skin)
    weight = RING_SHARE[:SPOT_RINGS, None]
    return np.asarray((face[:SPOT_RINGS] * weight).sum(axis=0) / weight.sum())


def stirred_surface_c(cups: Cups, renewal_s: Array) -> Array:
    """What glows while the cup is stirred: fresh plastic that has cooled since it came up.

    A constant flux takes 2·q·√(t/π)/e off the face of a thick body (Carslaw and Jaeger, Conduction
    of Heat in Solids, 2nd ed., sec. 2.9), where e is the root of conductivity, density and heat.
    """
    mean, plastic = mean_c(cups), cups.ovens.plastic
    room = cups.ovens.room
    flux = surface_w_m2k(room, mean, cups.ovens.glass.inner_m) * (mean - room.temp_c)
    stores = density_kg_m3(plastic, mean) * heat_capacity_j_kgk(plastic, mean)
    effusivity = np.sqrt(conductivity_w_mk(plastic, mean) * stores)
    return np.asarray(mean - 2 * flux * np.sqrt(renewal_s / np.pi) / effusivity)


def read_while_stirring(cups: Cups, rng: np.random.Generator) -> Array:
    """One infrared reading of each cup under the spoon; no two strokes are alike."""
    stroke = cups.ovens.renewal_s * np.exp(rng.normal(0, STROKE, len(cups)))
    noise = rng.normal(0, INFRARED_NOISE_K, len(cups))
    return stirred_surface_c(cups, stroke) + cups.ovens.infrared_bias_k + noise


def read_infrared(cups: Cups, rng: np.random.Generator) -> Array:
    """One reading of each cup's surface."""
    noise = rng.normal(0, INFRARED_NOISE_K, len(cups))
    return surface_c(cups) + cups.ovens.infrared_bias_k + noise


def read_probe(cups: Cups, rng: np.random.Generator) -> Array:
    """One reading of a probe held in the middle while stirring."""
    weight = (ROW_SHARE[:, None] * RING_SHARE)[MIDDLE][:, :, None]
    inside = (cups.plastic_c[MIDDLE] * weight).sum(axis=(0, 1)) / weight.sum()
    noise = rng.normal(0, PROBE_NOISE_K, len(cups))
    return np.asarray(inside + cups.ovens.probe_bias_k + noise)


def _bottom(values: Array) -> Array:
    cells = BOTTOM_SHARE[:, None, None] * RING_SHARE[:, None]
    return np.asarray((values * cells).sum(axis=(0, 1)) / cells.sum())
