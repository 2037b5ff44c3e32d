"""Hooks and weights on a bait."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array, Draws
from pourwright.base.field import number, pick, text
from pourwright.base.record import Record
from pourwright.matter.metal import Metal, density_kg_m3

LEAD_CAUTION = (
    "Lead is poisonous: wash your hands after touching it, keep it from food and children, melt "
    "none without extraction, and ask whether your waters allow it at all."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Weight(Record):
    """A hook, or a weight on it."""

    name: str = text("Name", most=60, default="")
    metal: Metal = pick("Made of", default=Metal.STEEL)
    mass_g: float = number("Weight in air", low=0.01, high=300)
    at_mm: float = number("Its middle, from the bait's nose", low=-150, high=700)
    up_mm: float = number(
        "Its middle above the bait's center line; below is negative", low=-150, high=150, default=0
    )
    drag_mm2: float | None = number(
        "Area it shows to the water; left out, that of a ball of its volume",
        low=0, high=5000, default=None,
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Load:
    """A weight in SI units; draws along the volume."""

    mass_kg: float
    volume_m3: Array
    at_m: float
    up_m: float
    drag_m2: Array

    @property
    def size_m(self) -> Array:
        """Diameter of the round face that shows the same area."""
        return np.asarray(np.sqrt(4 * self.drag_m2 / math.pi))


def loads(draws: Draws, weights: tuple[Weight, ...]) -> tuple[Load, ...]:
    """The weights with their volumes drawn."""
    return tuple(_load(draws, weight) for weight in weights)


def _load(draws: Draws, weight: Weight) -> Load:
    mass_kg = weight.mass_g / 1000
    volume = mass_kg / density_kg_m3(draws, weight.metal)
    face = math.pi / 4 * np.cbrt(6 * volume / math.pi) ** 2
    if weight.drag_mm2 is not None:
        face = draws.known(weight.drag_mm2 / 1e6)
    return Load(mass_kg, volume, weight.at_mm / 1000, weight.up_mm / 1000, face)


def lead_notes(weights: tuple[Weight, ...]) -> Iterable[str]:
    """The usual caution where a lead weight is chosen."""
    if any(weight.metal is Metal.LEAD for weight in weights):
        yield LEAD_CAUTION
