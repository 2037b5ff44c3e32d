"""What every bait family is: measures a ruler or caliper reads, and the solid they make."""

from __future__ import annotations

from abc import abstractmethod
from dataclasses import dataclass
from typing import ClassVar

from pourwright.base.record import Record
from pourwright.body.loft import Solid


@dataclass(frozen=True, slots=True, eq=False)
class Core:
    """What a hollow bait is molded around.

    `pin` shapes the bore and reaches past its open end at the tail, round about the length;
    `around` is what the halves shape: the bait with its bore filled and without cuts made later.
    """

    pin: Solid
    around: Solid


@dataclass(frozen=True, slots=True, kw_only=True)
class Family(Record):
    """A family of baits. Nose at x = 0, length along x, the mold pulls along z and parts at z = 0.

    The shape is the finished bait, cold, as a ruler or caliper reads it, and so are its volume and
    thickness. The cavity it comes from is larger by the shrink: `grown` in `body.mold.cavity`.
    `key` is stored and never changes; `core_pin` tells that the mold needs one. The default
    measures of every family are invented, and no bait on sale. `lies_on_side` tells that its height
    lies in the parting plane; the back then points to +y, and to +z otherwise.
    """

    key: ClassVar[str] = ""
    label: ClassVar[str] = ""
    core_pin: ClassVar[bool] = False
    lies_on_side: ClassVar[bool] = False

    @classmethod
    def up(cls) -> int:
        """The axis that the back points along: 1 for y, 2 for z."""
        return 1 if cls.lies_on_side else 2

    @abstractmethod
    def solid(self) -> Solid:
        """The closed solid in one piece, in mm."""

    def core(self) -> Core | None:
        """What a core pin shapes, in mm; none of a bait without a bore."""
        return None
