"""What a frozen sheet asks of a pour: its cups and their parts, its molds, its injector."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Part:
    """One thing that goes into a cup; `key` names it within the cup.

    `drops` where it is dripped, `spoons` in words where it is spooned, `drop_g` where a drop was
    weighed.
    """

    key: str
    name: str
    grams: float
    scale_g: float
    drops: int | None = None
    spoons: str = ""
    drop_g: float | None = None
    note: str = ""

    def dripped(self, drops: int, grams: float) -> int:
        """Drops that are in, those by weight among them."""
        return drops + (round(grams / self.drop_g) if self.drop_g else 0)

    def drops_left(self, drops: int, grams: float) -> int:
        """Drops still wanted; below zero where there are too many."""
        return (self.drops or 0) - self.dripped(drops, grams)


@dataclass(frozen=True, slots=True)
class CupTask:
    """One cup: what is weighed into it cold, what tints it hot, and the shots it should give.

    `fill_ml` is the cold volume of its plastic, for those without a scale.
    """

    number: int
    layer: str
    shots: int
    shot_g: float
    total_g: float
    fill_ml: float
    weigh: tuple[Part, ...]
    tint: tuple[Part, ...]


@dataclass(frozen=True, slots=True)
class WetThing:
    """A tool whose record says it is wet."""

    sort: str
    id: str
    name: str


@dataclass(frozen=True, slots=True)
class PourSetup:
    """Everything a pour is guided by; `molds` holds a name for each, `cavities` those of one."""

    cups: tuple[CupTask, ...]
    molds: tuple[str, ...]
    cavities: int
    injector: bool
    wet: tuple[WetThing, ...] = ()

    def most_baits(self, shots: int) -> int:
        """Baits that so many shots can have made."""
        return shots * self.cavities

    @property
    def ready(self) -> tuple[str, ...]:
        """What is made sure of before the first gram, in order."""
        items = ("room", "jug", "start", "dry", "oven")
        return (*items, "injector") if self.injector else items

    @property
    def layers(self) -> tuple[str, ...]:
        """The layers of the look, in the order of their cups."""
        return tuple(dict.fromkeys(c.layer for c in self.cups))

    def cup(self, number: int) -> CupTask | None:
        """A cup by its number, if the sheet has it."""
        return next((c for c in self.cups if c.number == number), None)
