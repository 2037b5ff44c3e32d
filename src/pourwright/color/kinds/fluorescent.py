"""Colorants that glow: they send back light they took in at another color."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from pourwright.color.tint import Tint, hides


@dataclass(frozen=True, slots=True, kw_only=True)
class Fluorescent(Tint):
    """A glowing colorant, known by its own puck alone."""

    key: ClassVar[str] = "fluorescent"
    label: ClassVar[str] = "Fluorescent drops"
    limit: ClassVar[str] = (
        "fluorescent: shown as its own puck looked; what it glows in a mixture or under another "
        "light is not forecast, and no match or proof counts on it"
    )
    mixes: ClassVar[bool] = False

    hiding: float | None = hides((0.01, 0.06, 0.4))
