"""A thin leg, fin or claw beside a fat body: does it fill before it sets, pressed by itself."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import flag, number, text
from pourwright.base.record import Record
from pourwright.fill.skin import Chill
from pourwright.fill.slice import Chain, Part
from pourwright.physics.conduction import Solid
from pourwright.physics.cooled_section import middle_seconds

# Where nobody says: how long the branch is against the way to its tip, how much thicker a leg is
# where it leaves, and how much wider than thick a fin is. Estimates.
BRANCH_SHARE, LEG_TAPER, FIN_WIDTH = 1 / 3, 2.0, 4.0
_PIECES = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class BranchPart(Record):
    """A dead end beside the chain."""

    label: str = text("What it is", most=40, default="")
    path_mm: float = number("Way from the gate to its tip", low=0.5, high=2000)
    least_thick_mm: float = number("Least thickness on that way", low=0.1, high=100)
    branch_mm: float | None = number(
        "Length since it left the rest; left out, a third of the way. As long as the way, it is "
        "the chain itself and is not judged again",
        low=0.1, high=2000, default=None,
    )  # fmt: skip
    root_thick_mm: float | None = number(
        "Thickness where it leaves; left out, twice the least of a leg, the least of a fin",
        low=0.1, high=200, default=None,
    )  # fmt: skip
    flat: bool = flag("Flat like a fin rather than round like a leg")

    def check(self) -> None:
        """Refuse a branch longer than the way to its tip, or thinner at its root."""
        if self.branch_mm is not None and self.branch_mm > self.path_mm * (1 + 1e-9):
            why = f"must not exceed the way to its tip, {self.path_mm:g} mm"
            raise BadInput("branch_mm", self.branch_mm, why)
        if self.root_thick_mm is not None and self.root_thick_mm < self.least_thick_mm:
            why = f"must not be under the least thickness, {self.least_thick_mm:g} mm"
            raise BadInput("root_thick_mm", self.root_thick_mm, why)

    @property
    def length_mm(self) -> float:
        """Length of the branch, given or a share of the way."""
        return self.path_mm * BRANCH_SHARE if self.branch_mm is None else self.branch_mm

    @property
    def thickest_mm(self) -> float:
        """Thickness at its root, given or by its sort."""
        if self.root_thick_mm is not None:
            return self.root_thick_mm
        return self.least_thick_mm * (1 if self.flat else LEG_TAPER)

    @property
    def aside(self) -> bool:
        """Whether it leaves the chain at all."""
        return self.length_mm < self.path_mm * (1 - 1e-9)

    @property
    def name(self) -> str:
        """What to call it."""
        return self.label or f"branch to {self.path_mm:.0f} mm from the gate"


def branch_chain(part: BranchPart, copies: float) -> Chain:
    """The branch as a chain of its own, thinning evenly from its root to its tip."""
    middle = (np.arange(_PIECES) + 0.5) / _PIECES
    thick = part.thickest_mm + (part.least_thick_mm - part.thickest_mm) * middle
    return Chain(
        length_m=np.full(_PIECES, part.length_mm / 1000 / _PIECES),
        half_width_m=thick * (FIN_WIDTH if part.flat else 1) / 2000,
        half_thick_m=thick / 2000,
        copies=np.full(_PIECES, copies),
        part=(Part.CAVITY,) * _PIECES,
    )


def sets_seconds(part: BranchPart, chill: Chill) -> Array:
    """Time in which standing plastic sets at the branch's thinnest place."""
    return middle_seconds(
        Solid.SLAB if part.flat else Solid.CYLINDER,
        thick_m=chill.filmed_m(part.least_thick_mm / 1000),
        alpha_m2_s=chill.alpha_m2_s,
        left=chill.left,
    )
