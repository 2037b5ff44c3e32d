"""Cavities side by side, noses to the runner."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.body.loft import Solid, joined
from pourwright.body.mold.cavity import Cavity


@dataclass(frozen=True, slots=True)
class Nest:
    """All cavities in place, `step_mm` from one to the next; `noses_y` holds where gates go."""

    hollow: Solid
    plastic: Solid
    pins: tuple[Solid, ...]
    noses_y: tuple[float, ...]
    cavity: Cavity
    step_mm: float
    turned: bool

    @property
    def low_y(self) -> float:
        """Where the first cavity begins."""
        return float(self.hollow.bounding_box()[1])

    @property
    def high_y(self) -> float:
        """Where the last cavity ends."""
        return float(self.hollow.bounding_box()[4])

    @property
    def tail_x(self) -> float:
        """Where plastic ends."""
        return float(self.plastic.bounding_box()[3])

    @property
    def below_mm(self) -> float:
        """Depth under the parting plane."""
        return float(-self.hollow.bounding_box()[2])

    @property
    def above_mm(self) -> float:
        """Height over the parting plane."""
        return float(self.hollow.bounding_box()[5])


def nested(cavity: Cavity, count: int, spacing_mm: float, *, turned: bool = False) -> Nest:
    """A row of equal cavities; with `turned`, those in its lower half are turned over."""
    step = cavity.width_mm + spacing_mm
    at = _row(cavity, count, step, turned=turned)
    return Nest(
        hollow=joined(*(c.hollow.translate((0.0, y, 0.0)) for c, y in at)),
        plastic=joined(*(c.plastic.translate((0.0, y, 0.0)) for c, y in at)),
        pins=tuple(c.pin.translate((0.0, y, 0.0)) for c, y in at if c.pin),
        noses_y=tuple(y + c.nose.y_mm for c, y in at),
        cavity=cavity,
        step_mm=step,
        turned=turned,
    )


def wider_noses(nest: Nest) -> tuple[float, ...]:
    """Where the gates would go with one cavity more."""
    at = _row(nest.cavity, len(nest.noses_y) + 1, nest.step_mm, turned=nest.turned)
    return tuple(y + c.nose.y_mm for c, y in at)


def places(count: int, step_mm: float) -> tuple[float, ...]:
    """Middles of equal cavities, even about y = 0."""
    return tuple((k - (count - 1) / 2) * step_mm for k in range(count))


def _row(
    cavity: Cavity, count: int, step_mm: float, *, turned: bool
) -> tuple[tuple[Cavity, float], ...]:
    over = cavity.turned_over() if turned else cavity
    row = [over] * (count // 2) + [cavity] * (count - count // 2)
    return tuple(zip(row, places(count, step_mm), strict=True))
