"""The cells of a cup: rings of plastic inside a wall and a base of glass."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.matter import glass, plastisol

CELL_M = 0.0025
LEAST_CELLS, MOST_CELLS = 10, 40
GLASS_CELLS = 2
_WALL_TO_BASE = 0.7


@dataclass(frozen=True, slots=True)
class Vessel:
    """A cylinder of plastic in its glass; all lengths in meters."""

    diameter_m: float
    height_m: float
    wall_m: float
    base_m: float


@dataclass(frozen=True, slots=True)
class Grid:
    """Cells from the base up (rows) and from the axis out (columns).

    Rows before `glass_rows` and columns from `plastic_columns` on are glass. `radial_m2` are the
    faces between columns, `flat_m2` the faces of a column, `outer_m2` the outside of each row.
    """

    rows_m: Array
    columns_m: Array
    volume_m3: Array
    flat_m2: Array
    radial_m2: Array
    outer_m2: Array
    glass_rows: int
    plastic_columns: int

    @property
    def plastic(self) -> tuple[slice, slice]:
        """Where the plastic is."""
        return slice(self.glass_rows, None), slice(0, self.plastic_columns)

    @property
    def is_plastic(self) -> Array:
        """One where there is plastic, zero where there is glass."""
        mask = np.zeros(self.volume_m3.shape)
        mask[self.plastic] = 1.0
        return mask

    def weights(self) -> Array:
        """Share of the plastic's volume in each of its cells."""
        volume = self.volume_m3[self.plastic]
        return np.asarray(volume / volume.sum())


def vessel(*, plastic_kg: float, cold_g_ml: float, glass_kg: float, diameter_m: float) -> Vessel:
    """The cylinder that holds so much plastic in so much glass, filled to the brim of the glass.

    The wall is 0.7 times as thick as the base; glass above the plastic is left out.
    """
    top = np.pi * diameter_m**2 / 4
    height = plastic_kg / (cold_g_ml * 1000) / top
    low, high = 1e-4, 0.2
    for _ in range(60):
        base = (low + high) / 2
        outside = np.pi * (diameter_m / 2 + _WALL_TO_BASE * base) ** 2 * (height + base)
        found_kg = (outside - top * height) * glass.DENSITY_KG_M3
        low, high = (base, high) if found_kg < glass_kg else (low, base)
    return Vessel(diameter_m, float(height), float(_WALL_TO_BASE * low), float(low))


def grid(cup: Vessel, *, cell_m: float = CELL_M) -> Grid:
    """Cells of about `cell_m` in the plastic and two across the glass."""
    columns = _parts(cup.diameter_m / 2, cell_m, cup.wall_m)
    rows = _parts(cup.height_m, cell_m, cup.base_m)[::-1]
    edges = np.concatenate([[0.0], np.cumsum(columns)])
    flat = np.pi * np.diff(edges**2)
    return Grid(
        rows_m=rows,
        columns_m=columns,
        volume_m3=rows[:, None] * flat[None, :],
        flat_m2=flat,
        radial_m2=2 * np.pi * edges[1:-1][None, :] * rows[:, None],
        outer_m2=2 * np.pi * edges[-1] * rows,
        glass_rows=GLASS_CELLS,
        plastic_columns=len(columns) - GLASS_CELLS,
    )


def cell_mass_kg(cells: Grid, cold_g_ml: float) -> Array:
    """Mass of every cell; plastic keeps its cold density, since its swelling is left out."""
    density = np.where(cells.is_plastic > 0, cold_g_ml * 1000, glass.DENSITY_KG_M3)
    return np.asarray(density * cells.volume_m3)


def _parts(plastic_m: float, cell_m: float, glass_m: float) -> Array:
    count = int(np.clip(round(plastic_m / cell_m), LEAST_CELLS, MOST_CELLS))
    return np.concatenate(
        [np.full(count, plastic_m / count), np.full(GLASS_CELLS, glass_m / GLASS_CELLS)]
    )


COLD_G_ML = plastisol.COLD_DENSITY_G_ML.typical
