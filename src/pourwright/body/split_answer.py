"""How a bait parts into its layers, as an answer."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.band import Band
from pourwright.base.field import out


@dataclass(frozen=True, slots=True)
class LayerTold:
    """One layer of the bait."""

    place: str = out("Layer")
    share: Band = out("Share of the bait's volume, 0 to 1")
    volume_ml: Band = out("Volume in the finished bait, cold")


@dataclass(frozen=True, slots=True)
class LineTold:
    """A line between two layers."""

    under: str = out("Layer under it")
    over: str = out("Layer over it")
    height: float = out("Its height as a share of the bait's, 0 to 1")
    bottom_mm: Band = out("Its height over the lowest place of the cavity")
    area_mm2: float = out("Face between the two layers, seen from above")


@dataclass(frozen=True, slots=True)
class PourTold:
    """One pour by hand."""

    place: str = out("What is poured")
    level_mm: Band = out("Where its face comes to, over the lowest place of the cavity")
    poured_ml: Band = out("How much that is, hot, as it fills the cavity")
    total_ml: Band = out("All that is in the cavity then, without a core")


@dataclass(frozen=True, slots=True)
class SplitAnswer:
    """Shares, lines and pours."""

    layers: tuple[LayerTold, ...] = out("Layers in the order asked")
    lines: tuple[LineTold, ...] = out("Lines between layers that lie one on the other, from below")
    even_mm: Band = out("Where two barrels of one bore, pushed alike, would lay a line")
    push_ratio: Band | None = out(
        "For the wanted line: how far the upper layer's plunger goes for each step of the lower "
        "one's, barrels of one bore; null unless two layers lie one on the other"
    )
    pours: tuple[PourTold, ...] = out("Pours by hand, in order")
    notes: tuple[str, ...] = out("What the figures rest on, and cautions")
