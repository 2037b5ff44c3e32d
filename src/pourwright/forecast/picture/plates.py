"""Flakes strewn through the layers of a bait, the same each time for the same seed."""

from __future__ import annotations

import math

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.columns import crossings, triangles
from pourwright.body.division import Division
from pourwright.body.grid_of import grid_over
from pourwright.body.loft import Solid
from pourwright.color.texture import hexagon_mm2
from pourwright.forecast.picture.scene import FlakeSort, LayerOptics, Plates

# More than so many flakes are not drawn one by one.
MOST = 40_000
# By how much the flow lays flakes along the skin, 0 not at all; estimate.
LAID = 0.4


def strewn(
    solid: Solid, division: Division, layers: tuple[LayerOptics, ...], seed: int
) -> tuple[Plates, int]:
    """Flakes of every layer, and how many more there are than can be drawn.

    Their number is Poisson's; a flake belongs to the layer that its middle lies in. Where there are
    too many, fewer are drawn, so much larger that they cover as much.
    """
    rng = np.random.Generator(np.random.PCG64(seed))
    sorts = [(at, flake) for at, layer in enumerate(layers) for flake in layer.flakes]
    wanted = [
        flake.faces_per_mm / hexagon_mm2(flake.size_mm) * solid.volume() for _, flake in sorts
    ]
    kept = min(1.0, MOST / max(sum(wanted), 1.0))
    found = [
        _of_sort(solid, division, at, flake, int(rng.poisson(count * kept)), rng)
        for (at, flake), count in zip(sorts, wanted, strict=True)
    ]
    grown = 1 / math.sqrt(kept)
    left_out = round(sum(len(middle) for middle, _ in found) * (1 / kept - 1))
    middle = np.concatenate([np.zeros((0, 3)), *(m for m, _ in found)])
    plates = Plates(
        middle_mm=middle,
        normal=_normals(division, middle, rng),
        turn_rad=rng.random(len(middle)) * (np.pi / 3),
        size_mm=grown * np.repeat([f.size_mm for _, f in sorts], [len(m) for m, _ in found]),
        sort=np.repeat(np.arange(len(found)), [len(m) for m, _ in found]),
        shows=np.stack([f.shows for _, f in sorts]) if sorts else np.zeros((0, 31)),
    )
    return plates, left_out


def _of_sort(
    solid: Solid,
    division: Division,
    layer: int,
    flake: FlakeSort,
    count: int,
    rng: np.random.Generator,
) -> tuple[Array, FlakeSort]:
    middle = _inside(solid, count, rng)
    return middle[rng.random(count) < division.weights(middle)[:, layer]], flake


def _inside(solid: Solid, count: int, rng: np.random.Generator) -> Array:
    """Places even over the volume of a solid, (count, 3)."""
    grid = grid_over(solid)
    cell, low, high = crossings(triangles(solid), grid).gaps()
    long = np.cumsum(high - low)
    run = np.minimum(np.searchsorted(long, rng.random(count) * long[-1]), len(long) - 1)
    across, along = np.divmod(cell[run], grid.count[1])
    jitter = (rng.random((2, count)) - 0.5) * grid.pitch
    depth = low[run] + rng.random(count) * (high - low)[run]
    return np.stack(
        [grid.middles(0)[across] + jitter[0], grid.middles(1)[along] + jitter[1], depth], axis=1
    )


def _normals(division: Division, middle: Array, rng: np.random.Generator) -> Array:
    """Tilts at random, drawn toward the skin that is nearest."""
    free = rng.normal(size=middle.shape)
    free /= np.linalg.norm(free, axis=1, keepdims=True)
    out = _outward(division, middle)
    toward = np.where((free * out).sum(axis=1) < 0, -1.0, 1.0)[:, None]
    laid = (1 - LAID) * free + LAID * toward * out
    return np.asarray(laid / np.maximum(np.linalg.norm(laid, axis=1, keepdims=True), 1e-9))


def _outward(division: Division, middle: Array) -> Array:
    x = middle[:, 0]
    out = np.zeros_like(middle)
    for axis, mid, half in (
        (division.up, division.profile.mid_up_mm, division.profile.half_up_mm),
        (division.across, division.profile.mid_across_mm, division.profile.half_across_mm),
    ):
        reach = np.maximum(division.at(half, x), 0.1)
        out[:, axis] = (middle[:, axis] - division.at(mid, x)) / reach**2
    return np.asarray(out / np.maximum(np.linalg.norm(out, axis=1, keepdims=True), 1e-9))
