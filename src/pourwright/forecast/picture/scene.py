"""All that a picture of a look is made of, whoever draws it: the bench or the browser."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.columns import Index
from pourwright.body.division import Division
from pourwright.body.loft import Solid
from pourwright.color.sheen import Sheen
from pourwright.color.stack import Layers


@dataclass(frozen=True, slots=True, eq=False)
class FlakeSort:
    """Flake of one dose: hexagons flat to flat, faces to a volume, what a face shows, (31,)."""

    size_mm: float
    faces_per_mm: float
    shows: Array


@dataclass(frozen=True, slots=True, eq=False)
class LayerOptics:
    """What one layer does to light: per mm, (31,) each, with the pearl and the flake in it."""

    place: str
    absorb_mm: Array
    scatter_mm: Array
    sheens: tuple[Sheen, ...]
    flakes: tuple[FlakeSort, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Plates:
    """Flakes where they lie, in the bait's own frame.

    Middles in mm and unit normals, (n, 3); turn of the hexagon in its plane, size flat to flat
    and which of `shows` (sorts, 31) each has, (n,).
    """

    middle_mm: Array
    normal: Array
    turn_rad: Array
    size_mm: Array
    sort: Index
    shows: Array


@dataclass(frozen=True, slots=True, eq=False)
class Scene:
    """A bait with its layers and its flakes; layers in the order of the division's places."""

    solid: Solid
    division: Division
    layers: tuple[LayerOptics, ...]
    plates: Plates
    left_out: int

    @property
    def stacked(self) -> Layers:
        """The layers as `color.stack` takes them."""
        absorb = np.stack([layer.absorb_mm for layer in self.layers])
        scatter = np.stack([layer.scatter_mm for layer in self.layers])
        return Layers(absorb.astype(np.float32), scatter.astype(np.float32))
