"""The answer of a plan: everything the page, the paper and the JSON of a batch sheet show."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.band import Band
from pourwright.base.field import out
from pourwright.plan.pour_plan import PourPlan

# How far under the hot limit a reading rings: estimate.
ALARM_BELOW_K = 10.0


@dataclass(frozen=True, slots=True)
class Figure:
    """A computed number that can be opened: where it comes from and what would narrow it."""

    key: str = out("Its name; stable")
    label: str = out("What it is, in words")
    value: Band = out("The number with its range, in `unit`")
    unit: str = out("Unit key of base.units; empty for counts and shares")
    inputs: tuple[str, ...] = out("What it was computed from, one phrase each")
    source: str = out("Where the method comes from")
    narrow: tuple[str, ...] = out("What its width comes from, and which measurement narrows it")


@dataclass(frozen=True, slots=True)
class WeighLine:
    """One thing to weigh, drip or spoon into a cup."""

    material: str = out("Id on the shelf; empty when typed by hand")
    name: str = out("Name")
    sort: str = out("What it is")
    grams: float = out("Exact grams wanted")
    scale_g: float = out("What the scale can show for it")
    drops: int | None = out("Whole drops, where it is dripped")
    spoons: str = out("Level spoons in words, where it is spooned")
    error_share: float = out("How far whole drops, spoons or scale steps miss, -1 to 1")
    note: str = out("Shake first, bleeds, too few drops …")


@dataclass(frozen=True, slots=True)
class CupPlan:
    """One pouring cup of one layer."""

    number: int = out("Counted through the whole batch")
    layer: str = out("Layer of the look")
    shots: int = out("Shots it gives")
    shot_g: float | None = out("Grams one shot draws from it; null on sheets of before")
    waves: int = out("Times the molds are filled from it")
    rewarms: int = out("Times what is left is warmed again")
    virgin_g: float = out("Fresh plastic")
    remelt_g: float = out("Remelt")
    additives_g: float = out("Everything else in the cup")
    total_g: float = out("All of it")
    fill_line_ml: float = out("Cold volume, for those without a scale")
    fill_share: float = out("Share of the brim, cold")
    lines: tuple[WeighLine, ...] = out("What to weigh, drip and spoon")


@dataclass(frozen=True, slots=True)
class HeatRound:
    """One burst in the microwave, then a rest, a stir and a reading."""

    number: int = out("Counted from 1")
    on_s: float = out("Seconds on")
    reads_c: Band = out("What the thermometer should read after the stir")
    hottest_c: Band = out("Hottest place in the cup at the end of the burst")
    bottom_c: Band = out("Bottom of the cup at the end of the burst")
    core_gelled: float = out("Gelled share of the core, 0 to 1")
    core_fused: float = out("Fused share of the core, 0 to 1")
    bottom_gelled: float = out("Gelled share of the bottom, 0 to 1")
    bottom_fused: float = out("Fused share of the bottom, 0 to 1")
    note: str = out("What it looks like, and what to do")


@dataclass(frozen=True, slots=True)
class ReadRow:
    """A row of the paper table: reads X, heat Y seconds."""

    reads_c: float = out("Thermometer after a stir")
    heat_s: float = out("Seconds to heat next; 0 means stop")
    low_s: float = out("Low end")
    high_s: float = out("High end")
    capped: bool = out("Shortened so that the hottest place stays under the limit")


@dataclass(frozen=True, slots=True)
class HeatPlan:
    """How one size of cup is cooked."""

    cups: tuple[int, ...] = out("Numbers of the cups it holds for")
    mass_g: float = out("What is in the cup")
    power: Figure = out("Effective power into the plastic")
    target_c: float = out("Pour at")
    limit_c: float = out("Hot limit for the hottest place")
    limit_reason: str = out("Where the limit comes from")
    rounds: tuple[HeatRound, ...] = out("Suggested rounds")
    table: tuple[ReadRow, ...] = out("Reads X, heat Y seconds")
    minutes: Band = out("Heating with rests and stirs")
    scorch_share: Band = out("Share of the heat budget used at the hottest place")
    notes: tuple[str, ...] = out("Cautions and doubts")

    @property
    def alarm_c(self) -> float:
        """Reading at which to stop for good: under the limit, since the core runs ahead."""
        return self.limit_c - ALARM_BELOW_K


@dataclass(frozen=True, slots=True)
class LayerLook:
    """A plain swatch of one layer at the bait's thickness."""

    layer: str = out("Layer")
    share: float = out("Share of the bait's volume")
    over_white: str = out("sRGB over white, #rrggbb")
    over_dark: str = out("sRGB over a dark ground, #rrggbb")
    calibrated: bool = out("Whether the colorants were measured")
    notes: tuple[str, ...] = out("Doubts")


@dataclass(frozen=True, slots=True)
class CostLine:
    """One kind of cost."""

    kind: str = out("Kind")
    amount_money: Band = out("Amount")
    detail: str = out("How it was reckoned")


@dataclass(frozen=True, slots=True)
class ShelfLine:
    """What the batch takes from the shelf, and what is missing."""

    material: str = out("Id on the shelf; empty when typed by hand")
    name: str = out("Name")
    need_g: float = out("Needed")
    on_hand_g: float | None = out("On the shelf; null if nobody counted")
    short_g: float = out("Missing")


@dataclass(frozen=True, slots=True)
class Caution:
    """Something to know before pouring."""

    level: str = out("stop, risk or note")
    text: str = out("The words")


@dataclass(frozen=True, slots=True)
class BatchPlan:
    """A batch, planned."""

    title: str = out("Bait, look and count in words")
    shots: int = out("Shots, warm-up shots included")
    loads: int = out("Injector loads; 0 for pouring by hand")
    figures: tuple[Figure, ...] = out("The numbers of the batch")
    cups: tuple[CupPlan, ...] = out("Every cup")
    heat: tuple[HeatPlan, ...] = out("How each size of cup is cooked")
    looks: tuple[LayerLook, ...] = out("Swatches")
    costs: tuple[CostLine, ...] = out("Cost of the batch by kind")
    shelf: tuple[ShelfLine, ...] = out("What it takes from the shelf")
    warnings: tuple[Caution, ...] = out("What to know before pouring")
    assumptions: tuple[str, ...] = out("Values nobody measured, and how to replace them")
    pour: PourPlan | None = out("The pouring of the first cup; null on sheets of before")
    no_price: str | None = out("Why no price leaves the margin; null where one does")
