"""How tightly a sheet is set: the first style in which everything fits is taken."""

from __future__ import annotations

from dataclasses import dataclass

LEAST_SIZE = 7.5


@dataclass(frozen=True, slots=True)
class Style:
    """Sizes in points; `compact` leaves out what the screen tells better."""

    size: float
    row: float
    gap: float
    columns: int
    compact: bool
    grid_row: float

    @property
    def small(self) -> float:
        """Size of what stands beside the numbers, never below what a home printer can show."""
        return max(LEAST_SIZE, self.size - 0.75)


STYLES = (
    Style(size=9.0, row=12.5, gap=9.0, columns=2, compact=False, grid_row=19.0),
    Style(size=8.5, row=11.5, gap=7.0, columns=2, compact=False, grid_row=17.0),
    Style(size=8.0, row=10.4, gap=5.5, columns=2, compact=False, grid_row=15.0),
    Style(size=8.0, row=10.4, gap=5.5, columns=3, compact=True, grid_row=15.0),
    Style(size=7.5, row=9.2, gap=2.5, columns=3, compact=True, grid_row=13.0),
)
