"""What pucks have taught of one material."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from pourwright.base.field import number, part, parts, text
from pourwright.base.record import Record
from pourwright.color.constants import Constants
from pourwright.shop.noun import Noun


@dataclass(frozen=True, slots=True, kw_only=True)
class PuckUsed(Record):
    """A puck that spoke of it."""

    puck: str = text("Its id", most=64)


@dataclass(frozen=True, slots=True, kw_only=True)
class Calibration(Noun):
    """A material's color constants as a belief, with the pucks it comes from."""

    key: ClassVar[str] = "calibration"
    label: ClassVar[str] = "Color calibration"
    plural: ClassVar[str] = "Color calibrations"

    material: str = text("Id of the material", most=64)
    constants: Constants = part("Per mm, for 1 g in 100 g; of a plastic: as it is")
    words: str = text("How well it is known", most=120)
    open_lab: float = number("How far its puck may be off, Lab units", low=0, high=1000)
    pucks: tuple[PuckUsed, ...] = parts("Pucks it comes from", most=400)
