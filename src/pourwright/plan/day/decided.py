"""What the solver decides of a day."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from pourwright.plan.day.core import ModelStep

Key = tuple[int, int]


@dataclass(slots=True)
class Decided:
    """Steps by (job, wave), clean-ups by job, arcs of the kits' routes, and the sums."""

    heat: dict[Key, ModelStep] = field(default_factory=dict)
    pour: dict[Key, ModelStep] = field(default_factory=dict)
    clean: dict[int, ModelStep] = field(default_factory=dict)
    cleaned: dict[int, Any] = field(default_factory=dict)
    arcs: dict[tuple[int, int], Any] = field(default_factory=dict)
    late: dict[int, Any] = field(default_factory=dict)
    span: Any = None
