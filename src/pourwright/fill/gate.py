"""The narrow place through which a cavity fills, and when it shuts."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.base.record import Record
from pourwright.fill.skin import Chill
from pourwright.physics.conduction import Solid
from pourwright.physics.cooled_section import bar_seconds, middle_seconds

# A gate wider than that cools as a bar between two pairs of walls, else as a rod.
_ROUND = 1.25


@dataclass(frozen=True, slots=True, kw_only=True)
class Gate(Record):
    """A gate by its smallest section."""

    thick_mm: float = number("Thickness, its smaller measure", low=0.3, high=40)
    width_mm: float | None = number(
        "Width; left out, as wide as thick", low=0.3, high=200, default=None
    )

    def check(self) -> None:
        """Refuse a gate thicker than wide."""
        if self.wide_mm < self.thick_mm:
            raise BadInput("width_mm", self.width_mm, "must not be less than the thickness")

    @property
    def wide_mm(self) -> float:
        """Width, given or that of a round gate."""
        return self.thick_mm if self.width_mm is None else self.width_mm


def gate_seconds(gate: Gate, cold: Chill, *, larger_mm: float = 0.0) -> Array:
    """Seconds until the middle of a standing gate sets; infinite where its face never does."""
    thick, wide = (cold.filmed_m((mm + larger_mm) / 1000) for mm in (gate.thick_mm, gate.wide_mm))
    if gate.wide_mm <= _ROUND * gate.thick_mm:
        return middle_seconds(
            Solid.CYLINDER, thick_m=thick, alpha_m2_s=cold.alpha_m2_s, left=cold.left
        )
    return bar_seconds(thick_m=thick, width_m=wide, alpha_m2_s=cold.alpha_m2_s, left=cold.left)
