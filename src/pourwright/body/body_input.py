"""The body a calculation is asked about."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.field import kind
from pourwright.base.record import Record
from pourwright.body.families import FAMILIES
from pourwright.body.family import Family
from pourwright.body.loft import Solid


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyInput(Record):
    """A bait by ruler and caliper."""

    family: Family = kind("Shape and its measures", FAMILIES)

    def solid(self) -> Solid:
        """The closed solid, in mm: nose at x = 0, the mold pulls along z and parts at z = 0."""
        return self.family.solid()
