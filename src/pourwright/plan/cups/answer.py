"""What comes out: cups by color, shots by mold, and where the plastic goes."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.band import Band
from pourwright.base.field import out


@dataclass(frozen=True, slots=True)
class MoldShots:
    """Shots into one mold."""

    mold: str = out("Mold")
    shots: int = out("Shots")


@dataclass(frozen=True, slots=True)
class PotShare:
    """Remelt out of one pot."""

    pot: str = out("Pot")
    used_g: float = out("Remelt taken from it")


@dataclass(frozen=True, slots=True)
class PackedCup:
    """One cup."""

    number: int = out("Counted through all the colors")
    shots: tuple[MoldShots, ...] = out("What it gives")
    plastic_g: float = out("What it holds")
    fill_line_ml: float = out("Cold volume, for those without a scale")
    remelt_g: float = out("Remelt in it, at most the largest share")


@dataclass(frozen=True, slots=True)
class ColorCups:
    """All cups of one color."""

    color: str = out("Color")
    shots: int = out("Shots, warm-up shots included")
    cups: tuple[PackedCup, ...] = out("Every cup")
    least_cups: int = out("No packing needs fewer cups than this")
    plastic_g: float = out("Plastic to heat")
    remelt: tuple[PotShare, ...] = out("Remelt used, by pot")
    remelt_g: float = out("Remelt used")
    virgin_g: float = out("Fresh plastic")


@dataclass(frozen=True, slots=True)
class MoldCount:
    """What a mold gives in one color."""

    color: str = out("Color")
    mold: str = out("Mold")
    wanted: int = out("Good baits wanted")
    shots: int = out("Shots, warm-up shots included")
    spare_baits: int = out("Good baits above the count, since shots are whole")


@dataclass(frozen=True, slots=True)
class SharedCups:
    """What a color would save if its molds shared cups."""

    color: str = out("Color")
    saved: int = out("Cups fewer")
    words: str = out("The same in a sentence")


@dataclass(frozen=True, slots=True)
class CupsAnswer:
    """Fewest cups, color by color."""

    colors: tuple[ColorCups, ...] = out("By color, in the order in which they were asked for")
    molds: tuple[MoldCount, ...] = out("By color and mold")
    shots: int = out("Shots, warm-up shots included")
    cups: int = out("Cups")
    plastic_g: Band = out("All the plastic to heat")
    virgin_g: float = out("Fresh plastic")
    remelt_g: float = out("Remelt used")
    remelt_left_g: float = out("Remelt left in the pots")
    spare_baits: int = out("Good baits above what was wanted")
    residue_g: float = out("Left in the cups, lost")
    heel_g: float = out("Left in the injector, for remelt")
    proven: bool = out("Whether no packing with fewer cups exists")
    shared: tuple[SharedCups, ...] = out(
        "What cups shared between molds would save, where not asked"
    )
    notes: tuple[str, ...] = out("What dominates, and what would narrow it")
