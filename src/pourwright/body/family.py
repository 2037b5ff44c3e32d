"""What every bait family is: measures a ruler or caliper reads, and the solid they make."""

from __future__ import annotations

from abc import abstractmethod
from dataclasses import dataclass
from typing import ClassVar

from pourwright.base.record import Record
from pourwright.body.loft import Solid


@dataclass(frozen=True, slots=True, kw_only=True)
class Family(Record):
    """A family of baits. Nose at x = 0, length along x, the mold pulls along z and parts at z = 0.

    `key` is stored and never changes; `core_pin` tells that the mold needs one. The default
    measures of every family are invented, and no bait on sale.
    """

    key: ClassVar[str] = ""
    label: ClassVar[str] = ""
    core_pin: ClassVar[bool] = False

    @abstractmethod
    def solid(self) -> Solid:
        """The closed solid in one piece, in mm."""
