"""A slab or rod that cools against one lump of metal, which itself loses heat to the air.

Finite volumes in space; in time exact, since the system is linear: its modes are found once and
serve any start. Temperatures are excesses over the surroundings, in kelvin.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array
from pourwright.physics.conduction import Solid

# An hour to a hundredth of a second.
HALVINGS = 19


@dataclass(frozen=True, slots=True, eq=False)
class CoolingBody:
    """The modes of a body and its lump; shapes (draws, modes) and (draws, places, modes).

    `body` and `lump` are the amounts that one kelvin of excess puts into each mode; `cells`,
    `middle`, `mean` and `lump_k` read temperatures back. `volume` is each cell's share.
    """

    rate_s: Array
    body: Array
    lump: Array
    cells: Array
    middle: Array
    mean: Array
    lump_k: Array
    volume: Array


@dataclass(frozen=True, slots=True, eq=False)
class Cooling:
    """A body under way from one start: the amount of each mode at time zero."""

    of: CoolingBody
    amount: Array

    def middle_k(self, seconds: Array) -> Array:
        """Excess at the insulated middle of the body."""
        return _read(self.of.middle, self._left(seconds))

    def mean_k(self, seconds: Array) -> Array:
        """Mean excess of the body."""
        return _read(self.of.mean, self._left(seconds))

    def lump_k(self, seconds: Array) -> Array:
        """Excess of the lump."""
        return _read(self.of.lump_k, self._left(seconds))

    def cells_k(self, seconds: Array) -> Array:
        """Excess of every cell, from the middle or the far face to the lump."""
        return np.asarray(np.einsum("dcm,dm->dc", self.of.cells, self._left(seconds)))

    def hottest_k(self, seconds: Array) -> Array:
        """Largest excess of any cell; for a body that also cools at its far face."""
        return np.asarray(self.cells_k(seconds).max(axis=1))

    def _left(self, seconds: Array) -> Array:
        return np.asarray(self.amount * np.exp(-self.of.rate_s * seconds[:, None]))


def cooling(of: CoolingBody, *, body_k: Array, lump_k: Array) -> Cooling:
    """A body of one temperature put against its lump."""
    return Cooling(of, of.body * body_k[:, None] + of.lump * lump_k[:, None])


def cooling_body(
    solid: Solid,
    *,
    size_m: Array,
    k_w_mk: Array,
    alpha_m2_s: Array,
    heat_j_k: Array,
    film_w_m2k: Array,
    lump_j_k: Array,
    loss_w_k: Array,
    far_film_w_m2k: Array | None = None,
    edge: Array,
) -> CoolingBody:
    """The modes of a body of heat capacity `heat_j_k` against a lump of `lump_j_k`.

    `size_m` is the half thickness of a slab cooled on both faces, the radius of a rod, or, with a
    film of air at the far face, the whole thickness of a slab. `loss_w_k` leads from the lump to
    the surroundings; `edge` parts the body into cells, 0 in the middle or at the far face, 1 at
    the lump.
    """
    cells = len(edge) - 1
    power = 1 if solid is Solid.CYLINDER else 0
    volume = np.diff(edge ** (power + 1))
    area = (power + 1) * edge**power
    gap = np.diff((edge[1:] + edge[:-1]) / 2)
    wide = np.diff(edge)
    # Per unit of k·heat / (size²·k/α): every conductance of the body in units of heat·α/size².
    scale = heat_j_k * alpha_m2_s / size_m**2
    inner = area[1:-1] / gap * scale[:, None]
    face = _face(area[-1], film_w_m2k * size_m / k_w_mk, wide[-1]) * scale
    far = 0 * scale
    if far_film_w_m2k is not None:
        far = _face(1.0, far_film_w_m2k * size_m / k_w_mk, wide[0]) * scale
    heat = np.concatenate([volume * heat_j_k[:, None], lump_j_k[:, None]], axis=1)
    flows = np.zeros((len(scale), cells + 1, cells + 1))
    links = np.concatenate([inner, face[:, None]], axis=1)
    at = np.arange(cells)
    flows[:, at, at + 1] = flows[:, at + 1, at] = -links
    flows[:, at, at] += links
    flows[:, at + 1, at + 1] += links
    flows[:, 0, 0] += far
    flows[:, cells, cells] += loss_w_k
    square = np.diff(edge ** (power + 3)) / volume
    return _modes(flows, heat, volume, float(square[0] / (square[1] - square[0])))


def even(cells: int) -> Array:
    """Edges of cells that are all as wide: best for the middle, late."""
    return np.linspace(0.0, 1.0, cells + 1)


def fine_at_face(cells: int) -> Array:
    """Edges of cells that grow thin toward the face: best for the mean, early."""
    return np.asarray(np.sin(np.pi / 2 * np.linspace(0.0, 1.0, cells + 1)))


def halved(early: Callable[[Array], NDArray[np.bool_]], *, like: Array, longest_s: float) -> Array:
    """The time at which `early` turns false, by halving."""
    low, high = np.zeros_like(like), np.full_like(like, longest_s)
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        before = early(middle)
        low, high = np.where(before, middle, low), np.where(before, high, middle)
    return np.asarray((low + high) / 2)


def _face(area: float, biot: Array, wide: float) -> Array:
    """Film and half a cell in series."""
    return np.asarray(area / (1 / biot + wide / 2))


def _modes(flows: Array, heat: Array, volume: Array, curve: float) -> CoolingBody:
    root = np.sqrt(heat)
    rate, mode = np.linalg.eigh(flows / root[:, :, None] / root[:, None, :])
    shape = mode / root[:, :, None]
    weight = mode * root[:, :, None]
    cells = shape[:, :-1]
    return CoolingBody(
        rate_s=np.maximum(rate, 0.0),
        body=weight[:, :-1].sum(axis=1),
        lump=weight[:, -1],
        cells=cells,
        # The value at the middle itself: a parabola through the means of the first two cells.
        middle=cells[:, 0] + (cells[:, 0] - cells[:, 1]) * curve,
        mean=np.einsum("c,dcm->dm", volume, cells),
        lump_k=shape[:, -1],
        volume=volume,
    )


def _read(row: Array, amount: Array) -> Array:
    return np.asarray(np.einsum("dm,dm->d", row, amount))
