"""What is told of a shelf."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.field import out
from pourwright.color.reach.gamut import GamutLevel


@dataclass(frozen=True, slots=True)
class PaletteColor:
    """A color wanted, and how near the shelf comes."""

    name: str = out("Its name")
    lightness: float = out("L*")
    a: float = out("a*, green to red")
    b: float = out("b*, blue to yellow")
    srgb_hex: str = out("The color for a screen")
    nearest_de00: float = out("CIEDE2000 of the nearest recipe found, in amounts without rounding")
    nearest_hex: str = out("That recipe's color for a screen")
    reached: bool = out("Whether that is 2 or less")
    miss: str = out("How the nearest comes out; empty where the color is reached")
    counted_de00: float = out("CIEDE2000 of the nearest recipe found in whole steps for this cup")
    counted: str = out("That recipe in words")


@dataclass(frozen=True, slots=True)
class Within:
    """Shares of the palette within a difference."""

    de00: float = out("CIEDE2000")
    share: float = out("In amounts without rounding, 0 to 1")
    counted_share: float = out("In whole steps for this cup, 0 to 1")


@dataclass(frozen=True, slots=True)
class SmallShelf:
    """The best few bottles of the shelf for the palette."""

    names: tuple[str, ...] = out("The bottles")
    reached: int = out("Colors of the palette they reach")
    reached_share: float = out("The same as a share, 0 to 1")
    mean_nearest_de00: float = out("Mean CIEDE2000 from the palette to their nearest recipes")
    tried: int = out("Choices compared: all there are")
    equals: int = out("Choices that reach as many, this one among them; it is nearest on average")


@dataclass(frozen=True, slots=True)
class Purchase:
    """What one more bottle would do for the palette."""

    name: str = out("The bottle")
    adds: int = out("Colors of the palette it brings into reach")
    adds_names: tuple[str, ...] = out("Their names")
    mean_drop_de00: float = out("How far the mean CIEDE2000 to the nearest recipes falls")


@dataclass(frozen=True, slots=True)
class ReachAnswer:
    """What a shelf can make."""

    distinct: int = out(
        "Colors found that differ from each other by CIEDE2000 of 5 or more; a lower bound"
    )
    recipes_tried: int = out("Recipes in whole steps among which they were found")
    distinct_hex: tuple[str, ...] = out("Those colors for a screen, darkest first")
    reached_share: float = out("Share of the palette within CIEDE2000 of 2, unrounded, 0 to 1")
    within: tuple[Within, ...] = out("Shares of the palette within other differences")
    palette: tuple[PaletteColor, ...] = out("Color by color")
    not_reached: tuple[str, ...] = out("Names of the colors out of reach, the farthest first")
    small_shelf: SmallShelf = out("The best few bottles")
    purchases: tuple[Purchase, ...] = out("What each candidate would do, the best first")
    next_purchase: str | None = out("The candidate to buy next; null where none helps")
    gamut: tuple[GamutLevel, ...] = out("A picture of what was found, cut at lightnesses")
    verdict: str = out("In words")
    notes: tuple[str, ...] = out("What was assumed, what is left out, what would narrow it")
