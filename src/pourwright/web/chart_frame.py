"""The frame of a chart of lots: where a lot and a value lie, and the lines behind them."""

from __future__ import annotations

import math
from dataclasses import dataclass

WIDE, TALL = 640.0, 260.0
LEFT, RIGHT, TOP, BOTTOM = 74.0, 18.0, 16.0, 34.0
_MOST_LINES = 5


@dataclass(frozen=True, slots=True)
class Frame:
    """Lots from left to right, values from `low` at the bottom to `high` at the top."""

    lots: int
    low: float
    high: float

    def x(self, place: int) -> float:
        """Where the lot of that place, from 0, lies."""
        return round(LEFT + (place + 0.5) * self.step, 1)

    def y(self, value: float) -> float:
        """Where a value lies; one beyond the frame lies on its edge."""
        share = (value - self.low) / (self.high - self.low)
        room = TALL - TOP - BOTTOM
        return round(TALL - BOTTOM - min(max(share, 0.0), 1.0) * room, 1)

    @property
    def step(self) -> float:
        """Room of one lot."""
        return (WIDE - LEFT - RIGHT) / max(self.lots, 1)

    def lines(self) -> tuple[float, ...]:
        """A few round values between bottom and top."""
        rough = (self.high - self.low) / _MOST_LINES
        ten = 10 ** math.floor(math.log10(rough))
        step = next(ten * k for k in (1, 2, 5, 10) if ten * k >= rough)
        first = math.ceil(self.low / step - 1e-9)
        last = math.floor(self.high / step + 1e-9)
        return tuple(round(k * step, 9) for k in range(first, last + 1))

    def steps(self, values: tuple[float | None, ...]) -> str:
        """A path that runs level over each lot; it breaks where there is no value."""
        parts: list[str] = []
        for place, value in enumerate(values):
            if value is None:
                continue
            y, half = self.y(value), self.step / 2
            joined = place and values[place - 1] is not None
            begin = "L" if joined else "M"
            parts.append(f"{begin}{self.x(place) - half:.1f} {y}L{self.x(place) + half:.1f} {y}")
        return "".join(parts)

    def line(self, values: tuple[float, ...]) -> str:
        """A path from lot to lot."""
        return "".join(
            f"{'L' if place else 'M'}{self.x(place)} {self.y(value)}"
            for place, value in enumerate(values)
        )


@dataclass(frozen=True, slots=True)
class Dot:
    """One lot in a chart; `called` where it was called out."""

    x: float
    y: float
    called: bool


@dataclass(frozen=True, slots=True)
class GridLine:
    """A line behind the chart with its value in words."""

    y: float
    words: str
