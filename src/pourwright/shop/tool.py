"""Tools of the bench: what heats, holds, measures and shoots."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from pourwright.base.field import flag, number, parts, pick, text, unmeasured
from pourwright.base.record import Record
from pourwright.shop.day import DAY, refuse_no_day
from pourwright.shop.noun import Noun


@dataclass(frozen=True, slots=True, kw_only=True)
class Tool(Noun):
    """A thing bought once and used for many batches."""

    place: ClassVar[str] = "workplace"

    price_money: float | None = number("What it cost", low=0, high=20_000, default=None)
    bought_on: str = text(
        "Bought on (year-month-day), for the books",
        pattern=f"({DAY})?", most=10, default="",
    )  # fmt: skip
    note: str = text("Note", most=500, default="")

    def check(self) -> None:
        """Refuse a day that does not exist."""
        refuse_no_day("bought_on", self.bought_on)


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterTest(Record):
    """One water test: a cup of water, timed in the microwave, read before and after a stir."""

    water_g: float = number("Water in the cup", low=100, high=2000)
    start_c: float = number("Water before, stirred", low=1, high=60)
    end_c: float = number("Water after, stirred", low=2, high=99)
    on_s: float = number("Time on", low=15, high=600)
    vessel_g: float | None = unmeasured(
        "Empty cup", low=20, high=3000, typical=(250, 420, 600), measure="weigh the empty cup"
    )
    ambient_c: float | None = unmeasured(
        "Room", low=-10, high=45, typical=(18, 22, 28), measure="read the room temperature"
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class TimedReading(Record):
    """One earlier cook: seconds on without a stir, then what the surface read."""

    plastic_g: float = number("Plastic in the cup", low=20, high=3000)
    on_s: float = number("Time on, all rounds together", low=15, high=1200)
    surface_c: float = number("Surface read, before the stir", low=30, high=230)
    start_c: float | None = unmeasured(
        "Plastic at the start", low=-5, high=60, typical=(18, 22, 28),
        measure="read the raw plastic before heating",
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Microwave(Tool):
    """An oven that heats plastic and is never used for food again."""

    key: ClassVar[str] = "microwave"
    label: ClassVar[str] = "Microwave"
    plural: ClassVar[str] = "Microwaves"

    label_w: float | None = unmeasured(
        "Watts on its label", low=300, high=2200, typical=(650, 900, 1200),
        measure="read the label inside the door", logarithmic=True,
    )  # fmt: skip
    water_tests: tuple[WaterTest, ...] = parts("Water tests", most=20)
    readings: tuple[TimedReading, ...] = parts("Readings from earlier cooks", most=50)


class Glass(StrEnum):
    """What a pouring cup is made of."""

    BOROSILICATE = "borosilicate"
    SODA_LIME = "soda-lime"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cup(Tool):
    """A glass pouring cup (the vessel, not the US measure of 236.6 mL)."""

    key: ClassVar[str] = "cup"
    label: ClassVar[str] = "Pouring cup"
    plural: ClassVar[str] = "Pouring cups"

    volume_ml: float = number("Brim volume", low=30, high=4000)
    mass_g: float | None = unmeasured(
        "Empty cup", low=20, high=3000, typical=(250, 420, 600), measure="weigh the empty cup"
    )
    diameter_mm: float | None = unmeasured(
        "Inside diameter", low=30, high=250, typical=(78, 89, 102),
        measure="measure across the inside of the cup",
    )  # fmt: skip
    glass: Glass = pick("Glass", default=Glass.UNKNOWN)
    wet: bool = flag("Wet since the last use: dry it before plastic goes in")


class ThermometerKind(StrEnum):
    """How a thermometer reads."""

    INFRARED = "infrared"
    PROBE = "probe"


@dataclass(frozen=True, slots=True, kw_only=True)
class Thermometer(Tool):
    """An infrared gun or a contact probe (a metal probe never goes into a running oven)."""

    key: ClassVar[str] = "thermometer"
    label: ClassVar[str] = "Thermometer"
    plural: ClassVar[str] = "Thermometers"

    reads: ThermometerKind = pick("Kind", default=ThermometerKind.INFRARED)
    bias_k: float | None = unmeasured(
        "Reads high by", low=-15, high=15, typical=(-3, 0, 3),
        measure="check it in boiling water or against a probe while you stir",
    )  # fmt: skip
    bias_spread_k: float | None = number(
        "How well that is known (standard deviation)", low=0.05, high=10, default=None
    )
    checked_on: str = text(
        "Checked on", most=10, pattern=r"([0-9]{4}-[0-9]{2}-[0-9]{2})?", default=""
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Injector(Tool):
    """A hand injector: a barrel with a plunger and a nose."""

    key: ClassVar[str] = "injector"
    label: ClassVar[str] = "Injector"
    plural: ClassVar[str] = "Injectors"

    volume_ml: float = number("Full load", low=5, high=2000)
    bore_mm: float | None = unmeasured(
        "Bore", low=8, high=120, typical=(28, 35, 45), measure="measure across the barrel"
    )
    heel_ml: float | None = unmeasured(
        "What stays in the heel", low=0, high=100, typical=(3, 6, 10),
        measure="weigh what the empty-looking injector still gives back",
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class SpoonSet(Tool):
    """The measuring spoons at hand, level, in US teaspoons (4.93 mL)."""

    key: ClassVar[str] = "spoons"
    label: ClassVar[str] = "Spoon set"
    plural: ClassVar[str] = "Spoon sets"

    sizes_tsp: tuple[float, ...] = parts("Spoon sizes", least=1, most=12, low=0.01, high=6)


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale(Tool):
    """The scale that weighs parts and baits."""

    key: ClassVar[str] = "scale"
    label: ClassVar[str] = "Scale"
    plural: ClassVar[str] = "Scales"

    resolution_g: float = number("Smallest step", low=0.001, high=10, default=0.1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Gear(Tool):
    """Gloves, face shield, fan, extinguisher, rack: what a bench needs besides."""

    key: ClassVar[str] = "gear"
    label: ClassVar[str] = "Safety and other gear"
    plural: ClassVar[str] = "Safety and other gear"
