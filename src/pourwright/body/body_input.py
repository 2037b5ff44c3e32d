"""The body a calculation is asked about."""

from __future__ import annotations

import functools
from dataclasses import dataclass

from pourwright.base.errors import BadInput
from pourwright.base.field import kind, mesh, part, pick
from pourwright.base.mesh import LengthUnit, Mesh
from pourwright.base.record import Record
from pourwright.body.families import FAMILIES
from pourwright.body.family import Family
from pourwright.body.loft import Solid
from pourwright.body.placing import Placed, Placing, placed
from pourwright.body.shell import closed
from pourwright.body.unit_question import unit_of_file


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyInput(Record):
    """A bait by ruler and caliper, or by the file of its shape: one of the two.

    A record that inherits this and checks more calls `BodyInput.check(self)` first.
    """

    family: Family | None = kind("Shape and its measures", FAMILIES, default=None)
    file: Mesh | None = mesh("STL, 3MF or OBJ file of its shape, instead of a family", default=None)
    unit: LengthUnit | None = pick(
        "What one step in the file is; STL and OBJ do not say it, 3MF does", default=None
    )
    placing: Placing = part("How the body of the file lies in the mold", default=Placing())

    def check(self) -> None:
        """Refuse anything but one body, and a file whose unit nobody knows."""
        if (self.family is None) == (self.file is None):
            given = "both" if self.family else None
            raise BadInput("family", given, "give either a family or a file")
        if self.file is not None:
            unit_of_file(self.file, self.unit)
        elif self.unit is not None or self.placing != Placing():
            raise BadInput(
                "unit" if self.unit else "placing", None, "belongs to a file, not to a family"
            )

    def solid(self) -> Solid:
        """The closed solid, in mm: nose at x = 0, the mold pulls along z and parts at z = 0."""
        if self.family is not None:
            return self.family.solid()
        return self._placed().solid

    def up(self) -> int:
        """The axis that its back points along (1 or 2)."""
        if self.family is not None:
            return self.family.up()
        return 1 if self.placing.on_side else 2

    def body_notes(self) -> tuple[str, ...]:
        """What was repaired and proposed of a body from a file; nothing of a family."""
        if self.file is None:
            return ()
        return (*self.file.notes, *self._placed().notes)

    def _placed(self) -> Placed:
        if self.file is None:
            raise TypeError("there is no file")
        return _placed(self.file, unit_of_file(self.file, self.unit), self.placing)


@functools.lru_cache(maxsize=4)
def _placed(file: Mesh, unit: LengthUnit, placing: Placing) -> Placed:
    """A mesh is the same only if it is the same object, so nothing is compared point by point."""
    return placed(closed(file.points * unit.mm, file.triangles), placing)
