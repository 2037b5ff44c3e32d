"""Dead ends of a bait as an answer names them."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.field import out
from pourwright.body.filling import FillingMap


@dataclass(frozen=True, slots=True)
class LastPlace:
    """A dead end: it fills after all around it, and air is left there."""

    x_mm: float = out("Where, along the length")
    y_mm: float = out("Where, across the length")
    path_mm: float = out("Way from the gate to it")
    branch_mm: float = out("How far it lies from where its branch left the rest")
    thick_mm: float = out("Thickness just before its very tip")
    least_thick_mm: float = out("Least thickness on the way there")
    flat: bool = out("Whether its branch is flat like a fin rather than round like a leg")
    order: float = out("Share of the volume that is filled before it, 0 to 1")


def last_places(filled: FillingMap) -> tuple[LastPlace, ...]:
    """The dead ends of a map, the very last first."""
    return tuple(
        LastPlace(
            x_mm=end.x_mm,
            y_mm=end.y_mm,
            path_mm=end.path_mm,
            branch_mm=end.branch_mm,
            thick_mm=end.thick_mm,
            least_thick_mm=end.least_thick_mm,
            flat=end.flat,
            order=end.order,
        )
        for end in filled.dead_ends()
    )
