"""Molds and the baits they make."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from pourwright.base.errors import BadInput
from pourwright.base.field import flag, kind, number, part, parts, pick, reference, text, unmeasured
from pourwright.base.record import Record
from pourwright.body.families import FAMILIES
from pourwright.body.family import Family
from pourwright.fill.air_way import AirWay
from pourwright.fill.clamp_kinds import CLAMPS, Clamp
from pourwright.forecast.mold_feed import MoldFeed
from pourwright.matter.mold_material import MoldMaterial
from pourwright.shop.day import DAY, refuse_no_day
from pourwright.shop.noun import Noun


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighing(Record):
    """A bait weighed dry, then lowered on a thread into a glass on a zeroed scale."""

    air_g: float = number("Bait in air", low=0.05, high=500)
    gained_g: float = number("What the glass gained", low=0.05, high=500)
    water_c: float | None = unmeasured(
        "Water", low=0, high=40, typical=(16, 21, 26), measure="read the water temperature"
    )
    resolution_g: float = number("Smallest step of the scale", low=0.001, high=5, default=0.1)


class Lead(StrEnum):
    """Whether a bait as it is sold holds lead; no verdict on where that may be sold."""

    NOT_SAID = "not said"
    NO = "no"
    YES = "yes"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bait(Noun):
    """A bait known by ruler, by scale, or by both."""

    key: ClassVar[str] = "bait"
    label: ClassVar[str] = "Bait"
    plural: ClassVar[str] = "Baits"
    place: ClassVar[str] = "baits"

    shape: Family | None = kind("Shape by ruler or caliper", FAMILIES, default=None)
    own_shape: str = reference(
        "Shape from a file, instead of one by ruler", refers="own_shape", default=""
    )
    weighing: Weighing | None = part("Weighed in water", default=None)
    mass_g: float | None = number("Weight of one bait", low=0.05, high=500, default=None)
    thickest_mm: float | None = number("Thickest place", low=1, high=80, default=None)
    lead: Lead = pick(
        "Contains lead, as it is sold: hook, head and weights in it too",
        label="Contains lead", default=Lead.NOT_SAID,
    )  # fmt: skip
    note: str = text("Note", most=500, default="")

    def check(self) -> None:
        """Refuse a bait of which nothing is known, or two shapes."""
        if self.shape is not None and self.own_shape:
            raise BadInput(
                "own_shape", self.own_shape, "give a shape by ruler or from a file, not both"
            )
        if not (self.shape or self.own_shape or self.weighing or self.mass_g):
            raise BadInput("mass_g", None, "give a shape, a weighing or the weight of one bait")


@dataclass(frozen=True, slots=True, kw_only=True)
class ClampRow(Record):
    """Clamps of one sort that hold the mold shut."""

    sort: Clamp = kind("Sort of clamp", CLAMPS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Mold(Noun):
    """A mold and the bait its cavities make."""

    key: ClassVar[str] = "mold"
    label: ClassVar[str] = "Mold"
    plural: ClassVar[str] = "Molds"
    place: ClassVar[str] = "baits"

    bait: str = reference("Bait it makes", refers="bait")
    cavities: int = number("Cavities", low=1, high=60)
    owned: int = number("How many of this mold you have", low=1, high=20, default=1)
    feed_ml: float | None = unmeasured(
        "Sprue and runner of one shot", low=0, high=200, typical=(2, 3.5, 6),
        measure="weigh the sprue and runner of one shot",
    )  # fmt: skip
    mass_g: float | None = unmeasured(
        "Weight of the mold", low=20, high=20000, typical=(500, 900, 1500),
        measure="weigh the closed mold",
    )  # fmt: skip
    material: MoldMaterial = pick("Made of", default=MoldMaterial.ALUMINUM)
    open_face: bool = flag("Open mold for pouring by hand: air cools one face")
    feed: MoldFeed = part("Sprue, runner and gates", label="Feed by caliper", default=MoldFeed())
    air: AirWay = pick(
        "How air gets out at the end of a cavity", label="Vents", default=AirWay.LEAKS
    )
    clamps: tuple[ClampRow, ...] = parts("Clamps at hand", most=6)
    price_money: float | None = unmeasured(
        "Price", low=0, high=5000, typical=(25, 50, 90), measure="look up what you paid"
    )
    bought_on: str = text(
        "Bought on (year-month-day), for the books",
        pattern=f"({DAY})?", most=10, default="",
    )  # fmt: skip
    life_shots: int = number("Shots it will last", low=1, high=1_000_000, default=2000)
    wet: bool = flag("Wet since the last use: dry it before plastic goes in")
    note: str = text("Note", most=500, default="")

    def check(self) -> None:
        """Refuse a day that does not exist."""
        refuse_no_day("bought_on", self.bought_on)
