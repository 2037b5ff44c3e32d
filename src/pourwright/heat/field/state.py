"""Where a cup in two dimensions stands, and how it is stirred, drawn from, added to and read."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from pourwright.base.draws import Array
from pourwright.heat.field.grid import Grid, Vessel, cell_mass_kg, grid
from pourwright.matter.plastisol import heat_capacity_j_kgk

_READ_SHARE_OF_RADIUS = 0.6


@dataclass(frozen=True, slots=True)
class FieldState:
    """Temperatures of every cell; gelled, fused and heat dose of every plastic cell.

    `dose` is the heat budget used by the material of a cell. `lost_j` left through the outside
    and `gained_j` came from the waves, since the cup was filled.
    """

    vessel: Vessel
    cells: Grid
    mass_kg: Array
    temp_c: Array
    gelled: Array
    fused: Array
    dose: Array
    at_s: float
    lost_j: float
    gained_j: float
    peak_c: float

    @property
    def plastic_c(self) -> Array:
        """Temperatures of the plastic."""
        return self.temp_c[self.cells.plastic]

    @property
    def mean_c(self) -> float:
        """Temperature a perfect stir would even the plastic to."""
        return _evened(self.plastic_c, self.shares)

    @property
    def hottest_c(self) -> float:
        """Hottest plastic."""
        return float(self.plastic_c.max())

    @property
    def bottom_c(self) -> float:
        """Middle of the lowest layer of plastic."""
        row = self.plastic_c[0]
        return float(row[: max(1, len(row) // 2)].mean())

    @property
    def upper_c(self) -> float:
        """Mean of the uppermost cells over the middle of the face, under its skin."""
        count = max(1, round(_READ_SHARE_OF_RADIUS * self.cells.plastic_columns))
        area = self.cells.flat_m2[:count]
        return float(self.plastic_c[-1, :count] @ area / area.sum())

    @property
    def glass_c(self) -> float:
        """Mean of the glass."""
        glass = (1 - self.cells.is_plastic) * self.mass_kg
        return float((self.temp_c * glass).sum() / glass.sum())

    def mean(self, shares: Array) -> float:
        """Mass mean of a quantity of the plastic."""
        return float((shares * self.shares).sum())

    @property
    def shares(self) -> Array:
        """Share of the plastic's mass in each of its cells."""
        mass = self.mass_kg[self.cells.plastic]
        return np.asarray(mass / mass.sum())


def filled(vessel: Vessel, *, start_c: float, cold_g_ml: float, cell_m: float) -> FieldState:
    """Raw plastic in a cup of its own temperature."""
    cells = grid(vessel, cell_m=cell_m)
    shape = cells.volume_m3.shape
    zero = np.zeros((shape[0] - cells.glass_rows, cells.plastic_columns))
    return FieldState(
        vessel=vessel,
        cells=cells,
        mass_kg=cell_mass_kg(cells, cold_g_ml),
        temp_c=np.full(shape, float(start_c)),
        gelled=zero,
        fused=zero,
        dose=zero,
        at_s=0.0,
        lost_j=0.0,
        gained_j=0.0,
        peak_c=float(start_c),
    )


def stirred(state: FieldState, *, evens: float) -> FieldState:
    """The plastic after a stir that evens a share `evens` of every difference, 0 to 1."""
    temp = state.temp_c.copy()
    heat = ENTHALPY.of_c(state.plastic_c)
    temp[state.cells.plastic] = ENTHALPY.to_c(_moved(heat, state.shares, evens))
    return replace(
        state,
        temp_c=temp,
        gelled=_moved(state.gelled, state.shares, evens),
        fused=_moved(state.fused, state.shares, evens),
        dose=_moved(state.dose, state.shares, evens),
    )


def _moved(values: Array, share: Array, evens: float) -> Array:
    return np.asarray(values + evens * ((values * share).sum() - values))


def _evened(temp_c: Array, share: Array) -> float:
    return float(ENTHALPY.to_c((ENTHALPY.of_c(temp_c) * share).sum()))


class _Enthalpy:
    """Heat content of plastisol against temperature, J/kg, tabled every half kelvin."""

    def __init__(self) -> None:
        self._c = np.arange(-20.0, 500.0, 0.5)
        capacity = heat_capacity_j_kgk(self._c)
        steps = (capacity[1:] + capacity[:-1]) / 2 * np.diff(self._c)
        self._j_kg = np.concatenate([[0.0], np.cumsum(steps)])

    def of_c(self, temp_c: Array) -> Array:
        """Heat content at a temperature, -20 to 499 °C."""
        return np.asarray(np.interp(temp_c, self._c, self._j_kg))

    def to_c(self, j_kg: Array) -> Array:
        """Temperature of a heat content."""
        return np.asarray(np.interp(j_kg, self._j_kg, self._c))


ENTHALPY = _Enthalpy()
