"""Opaque drops: they hide what lies behind."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from pourwright.color.tint import Tint, hides


@dataclass(frozen=True, slots=True, kw_only=True)
class Pigment(Tint):
    """An opaque colorant."""

    key: ClassVar[str] = "opaque"
    label: ClassVar[str] = "Opaque drops"

    hiding: float | None = hides((0.7, 2.0, 7.0))
