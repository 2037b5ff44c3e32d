"""What came out when the pucks were last learned from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from pourwright.base.field import number, parts, text
from pourwright.base.record import Record
from pourwright.shop.look import Dose
from pourwright.shop.noun import Noun


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen(Record):
    """A puck or a card as it was then."""

    record: str = text("Its id", most=64)
    version: int = number("Its version", low=1, high=10_000_000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Remark(Record):
    """A puck worth a word."""

    puck: str = text("Its id", most=64)
    why: str = text("What is wrong with it, and what to do", most=400)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson(Noun):
    """How well the pucks fit together, and which one more would help."""

    key: ClassVar[str] = "lesson"
    label: ClassVar[str] = "Color lesson"
    plural: ClassVar[str] = "Color lessons"

    seen: tuple[Seen, ...] = parts("Pucks and cards it was learned from", most=800)
    typical_misfit: float | None = number(
        "Median CIEDE2000 of the readings that taught", low=0, high=1000, default=None
    )
    check_misfit: float | None = number(
        "Median CIEDE2000 of the check pucks", low=0, high=1000, default=None
    )
    doubted: tuple[Remark, ...] = parts("Pucks that do not fit, worst first", most=400)
    left_out: tuple[Remark, ...] = parts("Pucks that could not teach", most=400)
    next_puck: tuple[Dose, ...] = parts("One more puck that would help most", most=4)
    next_open_lab: float = number(
        "How far its color is open, Lab units", low=0, high=1000, default=0.0
    )
    notes: str = text("What was assumed, what would narrow it", most=6000, default="")
