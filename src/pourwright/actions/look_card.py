"""What stands on the color card of a look: one page to keep beside the bottles."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.band import Band
from pourwright.base.pixels import Pixels
from pourwright.body.split import Split
from pourwright.color.lab import LabBands
from pourwright.color.swatch import Swatch


@dataclass(frozen=True, slots=True)
class CardDose:
    """A material for 100 g of plastic: in its own measure, and in grams."""

    name: str
    sort: str
    amount: float
    measure: str
    grams: Band


@dataclass(frozen=True, slots=True)
class CardLayer:
    """A layer's recipe and its color at the bait's thickest place, poured on white."""

    name: str
    share: float
    doses: tuple[CardDose, ...]
    swatch: Swatch
    lab: LabBands
    calibrated: bool


@dataclass(frozen=True, slots=True)
class CardLot:
    """The lot that a card was printed for."""

    code: str
    frozen_at: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LookCard:
    """A card; `picture` is none where `no_picture` says why.

    `thick_mm` is the thickness of its swatches, `thick_known` whether it is the bait's own.
    """

    name: str
    version: int
    saved_at: str
    printed_at: str
    note: str
    demo: bool
    bait: str
    plastic: str
    thick_mm: float
    thick_known: bool
    layers: tuple[CardLayer, ...]
    split: Split
    lot: CardLot | None = None
    picture: Pixels | None = None
    no_picture: str = ""
