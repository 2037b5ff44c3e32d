"""Cards that pucks are read over."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from pourwright.base.field import part
from pourwright.color.calibrate.entry import Read
from pourwright.shop.noun import Noun


@dataclass(frozen=True, slots=True, kw_only=True)
class Card(Noun):
    """A black or a white card, read bare by the instrument that reads the pucks."""

    key: ClassVar[str] = "card"
    label: ClassVar[str] = "Reading card"
    plural: ClassVar[str] = "Reading cards"
    place: ClassVar[str] = "pucks"

    bare: Read = part("The bare card as read: L*a*b*, or 31 reflectances")
