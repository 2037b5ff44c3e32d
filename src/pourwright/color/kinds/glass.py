"""Hollow glass beads: bubbles that whiten the plastic."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from pourwright.color.haze import Haze, scatters


@dataclass(frozen=True, slots=True, kw_only=True)
class HollowGlass(Haze):
    """Bubbles of about 0.06 mm; a gram at 0.2 g/mL has 125,000 mm² of shadow.

    A bubble sends roughly an eighth of what meets it back as reduced scattering: estimate.
    """

    key: ClassVar[str] = "hollow_glass"
    label: ClassVar[str] = "Hollow glass"

    scatter_mm: float | None = scatters((0.06, 0.17, 0.45))
