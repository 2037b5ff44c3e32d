"""How tightly a sheet is set: the first style in which everything fits is taken."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Style:
    """Sizes in points. `spread` shows the ranges of the reading table below its values."""

    size: float
    row: float
    gap: float
    columns: int
    spread: bool
    grid_row: float

    @property
    def small(self) -> float:
        """Size of what stands beside the numbers, never below what a home printer can show."""
        return max(LEAST_SIZE, self.size - 0.75)


LEAST_SIZE = 7.5
STYLES = (
    Style(size=9.0, row=12.5, gap=9.0, columns=2, spread=True, grid_row=19.0),
    Style(size=8.5, row=11.5, gap=7.0, columns=2, spread=True, grid_row=17.0),
    Style(size=8.0, row=10.4, gap=5.5, columns=2, spread=True, grid_row=15.0),
    Style(size=7.5, row=9.6, gap=4.0, columns=2, spread=False, grid_row=13.5),
    Style(size=7.5, row=9.2, gap=3.0, columns=3, spread=False, grid_row=13.0),
)
