"""What a file without a unit would weigh in each: the question that only the maker can answer."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.errors import BadInput
from pourwright.base.mesh import LengthUnit, Mesh
from pourwright.matter.plastisol import COLD_DENSITY_G_ML

ASKED = (LengthUnit.MM, LengthUnit.CM, LengthUnit.IN)
# Outside of these no body is a bait: its longest side.
SHORTEST_MM, LONGEST_MM = 4.0, 1000.0


@dataclass(frozen=True, slots=True)
class UnitWeight:
    """How long a body is, and what it weighs in plain plastic, if its file is in that unit."""

    unit: LengthUnit
    length_mm: float
    weight_g: float

    @property
    def likely(self) -> bool:
        """Whether a bait may be that long."""
        return SHORTEST_MM <= self.length_mm <= LONGEST_MM

    def __str__(self) -> str:
        """The same in words."""
        return f"as {self.unit} {_plain(self.length_mm)} mm long and {_plain(self.weight_g)} g"


def _plain(value: float) -> str:
    return f"{float(f'{value:.3g}'):,.10g}"


def weight_in(mesh: Mesh, unit: LengthUnit) -> UnitWeight:
    """Length and weight of a mesh whose steps are of that unit."""
    volume_ml = mesh.volume * unit.mm**3 / 1000
    length_mm = float(mesh.extents.max()) * unit.mm
    return UnitWeight(unit, length_mm, volume_ml * COLD_DENSITY_G_ML.typical)


def unit_of_file(mesh: Mesh, said: LengthUnit | None) -> LengthUnit:
    """The unit of a mesh: its own, or the one said by the person.

    Raises: BadInput where neither says one, where they differ, or where no bait is that size.
    """
    if mesh.unit is not None and said not in {None, mesh.unit}:
        raise BadInput("unit", said, f"is not what the file says: {mesh.unit}")
    unit = mesh.unit or said
    if unit is None:
        choices = "; ".join(str(weight_in(mesh, u)) for u in ASKED)
        raise BadInput(
            "unit", None, f"is needed, since the file says none. It is {choices}: which?"
        )
    found = weight_in(mesh, unit)
    if not found.likely:
        why = f"makes the body {_plain(found.length_mm)} mm long; a bait has {SHORTEST_MM:g} to "
        raise BadInput("unit", unit.value, f"{why}{LONGEST_MM:g} mm")
    return unit
