"""The parts of a mold, each a solid in its place when the mold is closed."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from pourwright.body.loft import Solid


class Lies(Enum):
    """How a part is turned for the bench, in degrees about x, y, z: its working face looks up."""

    AS_CLOSED = (0.0, 0.0, 0.0)
    ROLLED_OVER = (180.0, 0.0, 0.0)
    ON_ITS_TAIL = (0.0, 90.0, 0.0)


@dataclass(frozen=True, slots=True)
class Part:
    """A part; `copies` of it are wanted. A `master` is a plate with what a casting gives way to."""

    name: str
    solid: Solid
    lies: Lies = Lies.AS_CLOSED
    copies: int = 1
    master: bool = False

    def on_bench(self) -> Solid:
        """The part turned for the bench, its lowest corner at the origin."""
        turned = self.solid.rotate(self.lies.value)
        low = turned.bounding_box()[:3]
        return turned.translate(tuple(-v for v in low))
