"""Salt: clear grains that haze the plastic a little."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from pourwright.color.haze import Haze, scatters


@dataclass(frozen=True, slots=True, kw_only=True)
class Salt(Haze):
    """Grains of 0.1 to 0.3 mm, hardly denser to light than plastic (index 1.544).

    A gram of 0.2 mm grains has 3,500 mm² of shadow; light leaves it turned by a few degrees, so
    that a tenth or less of it counts as reduced scattering: estimate.
    """

    key: ClassVar[str] = "salt"
    label: ClassVar[str] = "Salt"

    scatter_mm: float | None = scatters((0.0007, 0.002, 0.006))
