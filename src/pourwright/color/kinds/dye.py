"""Translucent drops: they tint and hardly hide."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from pourwright.color.tint import Tint, hides


@dataclass(frozen=True, slots=True, kw_only=True)
class Dye(Tint):
    """A translucent colorant."""

    key: ClassVar[str] = "dye"
    label: ClassVar[str] = "Translucent drops"

    hiding: float | None = hides((0.003, 0.012, 0.05))
