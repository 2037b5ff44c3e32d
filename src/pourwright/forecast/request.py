"""What a batch is forecast from: plain numbers, each either entered or typical with a band."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pourwright.base.band import Band
from pourwright.base.errors import BadInput
from pourwright.base.field import band, flag, number, part, parts, pick, text, unmeasured
from pourwright.base.record import Record
from pourwright.body.layering import refuse_odd_sum
from pourwright.color.constants import Constants
from pourwright.color.film.powder import Powder
from pourwright.heat.belief import CHECKED_BIAS_SPREAD_K
from pourwright.heat.cooked_cup import CookedCup
from pourwright.heat.history import Instrument
from pourwright.matter.mold_material import MoldMaterial
from pourwright.matter.remelt import HEAT_DOSE


@dataclass(frozen=True, slots=True, kw_only=True)
class BaitPart(Record):
    """The bait: its weight or its volume, and how thick it is at its thickest place."""

    name: str = text("Name", most=60, default="bait")
    mass_g: Band | None = band("Weight of one bait", low=0.05, high=500, default=None)
    volume_ml: Band | None = band("Volume of one bait", low=0.05, high=500, default=None)
    thickest_mm: float | None = unmeasured(
        "Thickest place", low=1, high=80, typical=(6, 10, 15),
        measure="measure the thickest place of the bait with a caliper", logarithmic=True,
    )  # fmt: skip
    flat: bool = flag("Wide and flat at its thickest place (cools as a slab, not as a rod)")

    def check(self) -> None:
        """Refuse a bait without a size."""
        if self.mass_g is None and self.volume_ml is None:
            raise BadInput("mass_g", None, "give the bait's weight or its volume")


@dataclass(frozen=True, slots=True, kw_only=True)
class MoldPart(Record):
    """The mold and how many of it stand ready."""

    name: str = text("Name", most=60, default="mold")
    cavities: int = number("Cavities", low=1, high=60)
    owned: int = number("Molds shot in turn", low=1, high=20, default=1)
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
    start_c: float | None = unmeasured(
        "Mold at the start", low=0, high=80, typical=(18, 25, 35),
        measure="read the mold with the infrared gun",
    )  # fmt: skip
    price_money: float | None = unmeasured(
        "Price of the mold", low=0, high=5000, typical=(25, 50, 90),
        measure="look up what you paid for the mold",
    )  # fmt: skip
    life_shots: int = number("Shots it will last", low=1, high=1_000_000, default=2000)


@dataclass(frozen=True, slots=True, kw_only=True)
class CupPart(Record):
    """The pouring cup."""

    name: str = text("Name", most=60, default="pouring cup")
    brim_ml: float = number("Brim volume", low=30, high=4000)
    glass_g_per_ml: float | None = unmeasured(
        "Glass for each mL of brim volume, in g", low=0.1, high=3, typical=(0.6, 0.85, 1.2),
        measure="weigh the empty cup",
    )  # fmt: skip
    diameter_ratio: float | None = unmeasured(
        "Inside diameter against the cube root of the volume", low=0.6, high=2.5,
        typical=(1.02, 1.14, 1.28), measure="measure across the inside of the cup",
    )  # fmt: skip
    fill_share: float = number(
        "Share of the brim filled cold; the rest is for swelling and stirring",
        low=0.1, high=0.85, default=0.7,
    )  # fmt: skip
    residue_g: float | None = unmeasured(
        "What stays in the cup", low=0, high=200, typical=(4, 8, 15),
        measure="weigh the cup before heating and after the last shot",
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class InjectorPart(Record):
    """The injector; left out means pouring by hand."""

    name: str = text("Name", most=60, default="injector")
    volume_ml: float = number("Full load", low=5, high=2000, default=177.4)
    bore_mm: float | None = unmeasured(
        "Bore", low=8, high=120, typical=(28, 35, 45), measure="measure across the barrel"
    )
    heel_ml: float | None = unmeasured(
        "What stays in the heel", low=0, high=100, typical=(3, 6, 10),
        measure="weigh what the empty-looking injector still gives back",
    )  # fmt: skip


class Sort(StrEnum):
    """What a dose is, as far as the sums care."""

    COLORANT = "colorant"
    FLAKE = "flake"
    PEARL_POWDER = "pearl_powder"
    SALT = "salt"
    HOLLOW_GLASS = "hollow_glass"
    SCENT = "scent"
    SOFTENER = "softener"
    HARDENER = "hardener"
    STABILIZER = "stabilizer"


class Measure(StrEnum):
    """How a dose is measured out."""

    DROPS = "drops"
    GRAMS = "grams"
    SPOONS = "level teaspoons"


@dataclass(frozen=True, slots=True, kw_only=True)
class DosePart(Record):
    """One material of a recipe, and how much of it goes into 100 g of plastic."""

    material: str = text("Its id on the shelf", most=64, default="")
    name: str = text("Name", most=60)
    sort: Sort = pick("What it is", default=Sort.COLORANT)
    per_100g: float = number("Amount to 100 g of plastic", low=0.001, high=400)
    measure: Measure = pick("Measured in", default=Measure.DROPS)
    drop_mass_g: float | None = unmeasured(
        "One drop", low=0.005, high=0.2, typical=(0.02, 0.035, 0.05),
        measure="weigh 20 drops and divide by 20",
    )  # fmt: skip
    spoon_g: float | None = unmeasured(
        "One level teaspoon", low=0.3, high=12, typical=(1.5, 2.6, 5),
        measure="weigh five level teaspoons and divide by five",
    )  # fmt: skip
    density_g_ml: float | None = number("Density", low=0.05, high=9, default=None)
    hardness_oo: float | None = number("Hardness, Shore OO", low=1, high=99, default=None)
    price_per_kg_money: float | None = unmeasured(
        "Price of a kilogram", low=0, high=20_000, typical=(20, 60, 200),
        measure="enter what the bottle cost and what it weighed", logarithmic=True,
    )  # fmt: skip
    on_hand_g: float | None = number("What is left", low=0, high=2_000_000, default=None)
    color_hex: str = text("Its color", pattern="(#[0-9a-fA-F]{6})?", most=7, default="")
    opaque: bool = flag("It hides rather than tints")
    strength: float | None = unmeasured(
        "Strength against a usual colorant", low=0.02, high=20, typical=(0.4, 1, 2.5),
        measure="pour a 5 mm puck of 0.2 g (about 6 drops) in 100 g and compare", logarithmic=True,
    )  # fmt: skip
    glows: bool = flag("It is fluorescent")
    constants: Constants | None = part("What pucks taught of its color", default=None)
    pearl: Powder | None = part("Flakes of a pearl powder, where they are known", default=None)
    flake_mm: float | None = number("Flake size", low=0.05, high=6, default=None)
    film_um: float | None = number("Film thickness", low=8, high=250, default=None)
    bleeds: bool = flag("It bleeds")
    shake_first: bool = flag("Shake before use")


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerPart(Record):
    """One layer of the look: a share of the bait and its recipe. Each layer has its own cups."""

    name: str = text("Layer", most=20, default="body")
    share: float = number("Share of the bait's volume, 0 to 1", low=0.01, high=1, default=1.0)
    told_by: str = text(
        "What its share was worked out from; empty if entered", most=160, default=""
    )
    doses: tuple[DosePart, ...] = parts("Recipe for 100 g", most=20)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlasticPart(Record):
    """The plastisol."""

    material: str = text("Its id on the shelf", most=64, default="")
    name: str = text("Name", most=60, default="plastic")
    cold_density_g_ml: float | None = unmeasured(
        "Cold density", low=0.9, high=1.4, typical=(1.024, 1.052, 1.105),
        measure="weigh a measured volume of the mixed jug",
    )  # fmt: skip
    hardness_oo: float | None = unmeasured(
        "Hardness, Shore OO", low=1, high=99, typical=(20, 35, 55),
        measure="pour a puck and press a durometer on it after a day",
    )  # fmt: skip
    flash_point_c: float | None = number(
        "Flash point on the supplier's data sheet", low=100, high=350, default=None
    )
    constants: Constants | None = part("What pucks taught of its color", default=None)
    price_per_kg_money: float | None = unmeasured(
        "Price of a kilogram", low=0, high=500, typical=(8, 12, 20),
        measure="enter what the jug cost and what it weighed", logarithmic=True,
    )  # fmt: skip
    on_hand_g: float | None = number("What is left", low=0, high=2_000_000, default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class RemeltPart(Record):
    """Rejects and sprue to use up with the virgin plastic."""

    material: str = text("Its id on the shelf", most=64, default="")
    name: str = text("Name", most=60, default="remelt")
    available_g: float = number("Remelt to use up", low=0, high=20_000, default=0)
    largest_share: float = number("Largest share of a cup", low=0, high=1, default=0.3)
    heats: int = number("Times it has been heated", low=1, high=20, default=1)
    dose_share: float | None = unmeasured(
        "Heat budget it has used, 1 is all of it; the typical share is that of one heat",
        low=0, high=20, typical=HEAT_DOSE.ends, measure=HEAT_DOSE.measure, logarithmic=True,
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterTestPart(Record):
    """One water test of the microwave."""

    water_g: float = number("Water in the cup", low=100, high=2000)
    start_c: float = number("Water before", low=1, high=60)
    end_c: float = number("Water after, stirred", low=2, high=99)
    on_s: float = number("Time on", low=15, high=600)
    vessel_g: float | None = number("Empty cup", low=20, high=3000, default=None)
    ambient_c: float | None = number("Room", low=-10, high=45, default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingPart(Record):
    """One earlier cook: seconds on without a stir, then what the surface read."""

    plastic_g: float = number("Plastic in the cup", low=20, high=3000)
    on_s: float = number("Time on", low=15, high=1200)
    surface_c: float = number("Surface read", low=30, high=230)
    start_c: float | None = number("Plastic at the start", low=-5, high=60, default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class OvenPart(Record):
    """The microwave and what is known of it."""

    name: str = text("Name", most=60, default="microwave")
    label_w: float | None = unmeasured(
        "Watts on its label", low=300, high=2200, typical=(650, 900, 1200),
        measure="read the label inside the door", logarithmic=True,
    )  # fmt: skip
    water_tests: tuple[WaterTestPart, ...] = parts("Water tests", most=20)
    readings: tuple[ReadingPart, ...] = parts("Readings from earlier cooks", most=50)
    start_c: float | None = unmeasured(
        "Plastic at the start", low=-5, high=60, typical=(17, 22, 28),
        measure="read the raw plastic before heating",
    )  # fmt: skip
    thermometer_bias_k: float | None = unmeasured(
        "Thermometer reads high by", low=-15, high=15, typical=(-3, 0, 3),
        measure="check the thermometer in boiling water or against a probe while you stir",
    )  # fmt: skip
    thermometer_spread_k: float = number(
        "How well that is known, as a standard deviation",
        low=0.1, high=10, default=CHECKED_BIAS_SPREAD_K,
    )  # fmt: skip
    instrument: Instrument = pick("The thermometer is", default=Instrument.INFRARED)
    thermometer: str = text("Its id on the bench", most=64, default="")
    cups: tuple[CookedCup, ...] = parts("Cups cooked in it before, oldest first", most=50)
    target_c: float = number("Pour at", low=150, high=190, default=175)


@dataclass(frozen=True, slots=True, kw_only=True)
class HandPart(Record):
    """How long a pair of hands takes, and the tools that measure."""

    reject_share: float | None = unmeasured(
        "Share rejected, 0 to 1", low=0, high=0.9, typical=(0.02, 0.08, 0.2),
        measure="count the good and the bad of one batch",
    )  # fmt: skip
    warmup_shots: int = number("Warm-up shots", low=0, high=20, default=1)
    weigh_s: float | None = unmeasured(
        "Weighing and dosing one cup", low=20, high=3600, typical=(120, 240, 480),
        measure="time one cup from empty to mixed",
    )  # fmt: skip
    shoot_s: float | None = unmeasured(
        "Drawing and shooting one mold", low=5, high=600, typical=(15, 30, 60),
        measure="time one draw and shot",
    )  # fmt: skip
    unload_s: float | None = unmeasured(
        "Opening, taking out and closing one mold", low=5, high=1200, typical=(40, 75, 150),
        measure="time one mold from opening to closed again",
    )  # fmt: skip
    finish_s: float | None = unmeasured(
        "Trimming and hanging one bait", low=1, high=600, typical=(4, 8, 20),
        measure="time ten baits and divide by ten",
    )  # fmt: skip
    spoon_sizes_tsp: tuple[float, ...] = parts("Spoon sizes", most=12, low=0.01, high=6)
    scale_step_g: float = number("Smallest step of the scale", low=0.001, high=10, default=0.1)


@dataclass(frozen=True, slots=True, kw_only=True)
class MoneyPart(Record):
    """Prices that turn a batch into a cost."""

    labor_per_h_money: float = number("An hour of work", low=0, high=500, default=15)
    power_price_per_kwh_money: float | None = unmeasured(
        "One kilowatt-hour", low=0, high=5, typical=(0.12, 0.18, 0.32),
        measure="read the electricity bill",
    )  # fmt: skip
    packing_per_bait_money: float = number("Packing of one bait", low=0, high=20, default=0)
    eyes_per_bait_money: float = number("Eyes of one bait", low=0, high=20, default=0)
    overhead_money: float = number("Overhead of one batch", low=0, high=500, default=0)
    remelt_credit_share: float = number(
        "Worth of remelt against virgin plastic, 0 to 1", low=0, high=1, default=0.5
    )
    remelt_used_share: float | None = number(
        "The same of the remelt that goes in; left out, that of what is kept",
        low=0, high=1, default=None,
    )  # fmt: skip
    margin: float = number("Margin wanted, 0 to 1", low=0, high=0.95, default=0.4)
    fee_share: float = number("Selling fees as a share of the price", low=0, high=0.6, default=0)
    fee_fixed_money: float = number("Selling fee of one bait", low=0, high=50, default=0)


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchRequest(Record):
    """Everything one batch is forecast from. Four entries are enough.

    The four: a bait size, `mold.cavities`, `count` and `cup.brim_ml`.
    """

    bait: BaitPart = part("The bait")
    mold: MoldPart = part("The mold")
    count: int = number("Good baits wanted", low=1, high=20_000)
    cup: CupPart = part("The pouring cup")
    injector: InjectorPart | None = part(
        "The injector; null for pouring by hand", default=InjectorPart()
    )
    plastic: PlasticPart = part("The plastic", default=PlasticPart())
    layers: tuple[LayerPart, ...] = parts("Layers of the look", most=4)
    remelt: RemeltPart = part("Remelt to use up", default=RemeltPart())
    oven: OvenPart = part("The microwave", default=OvenPart())
    hands: HandPart = part("Hands and measures", default=HandPart())
    money: MoneyPart = part("Prices", default=MoneyPart())
    ambient_c: float | None = unmeasured(
        "Room", low=-10, high=45, typical=(17, 22, 28), measure="read the room temperature"
    )
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse layers whose shares do not fill the bait."""
        if self.layers:
            refuse_odd_sum([layer.share for layer in self.layers])
