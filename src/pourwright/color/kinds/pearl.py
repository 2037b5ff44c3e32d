"""Pearl and highlight powder, taken as a weak scatterer."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from pourwright.color.tint import Tint, hides


@dataclass(frozen=True, slots=True, kw_only=True)
class Pearl(Tint):
    """A powder of coated mica."""

    key: ClassVar[str] = "pearl"
    label: ClassVar[str] = "Pearl powder"
    limit: ClassVar[str] = "pearl changes with the angle, and that is not in the color"

    hiding: float | None = hides((0.18, 0.6, 1.9))
