"""What holds for the whole workplace: units, money and the habits of the bench."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from pourwright.base.field import flag, number, part, pick, share, text, unmeasured
from pourwright.base.units import System
from pourwright.matter.water import HIGHEST_C, LOWEST_C, Water
from pourwright.shop.noun import Noun
from pourwright.shop.stock_value import Method
from pourwright.spectrum.shed import ShedLight
from pourwright.water.kind import WaterKind


class Paper(StrEnum):
    """Paper the printer takes."""

    LETTER = "letter"
    A4 = "a4"


@dataclass(frozen=True, slots=True, kw_only=True)
class Workplace(Noun):
    """Settings of one bench; there is exactly one of these."""

    key: ClassVar[str] = "workplace"
    label: ClassVar[str] = "Workplace"
    plural: ClassVar[str] = "Workplace"
    place: ClassVar[str] = "workplace"

    units: System = pick("Units on screen and paper", default=System.US)
    paper: Paper = pick("Paper", default=Paper.LETTER)
    currency: str = text("Currency sign", most=4, default="$")
    ambient_c: float | None = unmeasured(
        "Room", low=-10, high=45, typical=(17, 22, 28), measure="read the room temperature"
    )
    water: Water = pick("Water you fish", default=Water.FRESH)
    water_c: float | None = unmeasured(
        "Temperature of that water", low=LOWEST_C, high=HIGHEST_C, typical=(9, 18, 26),
        measure="read the water temperature",
    )  # fmt: skip
    water_kind: WaterKind = pick("How that water looks", default=WaterKind.CLEAR)
    secchi_m: float | None = number(
        "Depth at which a white disk on a cord goes out of sight in it; left out, that of such "
        "water",
        low=0.05, high=60, default=None, label="White disk gone at",
    )  # fmt: skip
    shed_light: ShedLight | None = part("The light you pour and judge colors in", default=None)
    labor_per_h_money: float = number("Your hour", low=0, high=500, default=15)
    power_price_per_kwh_money: float | None = unmeasured(
        "One kilowatt-hour", low=0, high=5, typical=(0.12, 0.18, 0.32),
        measure="read your electricity bill",
    )  # fmt: skip
    overhead_per_batch_money: float = number("Overhead of one batch", low=0, high=500, default=0)
    margin: float = share("Margin you want", low=0, high=0.95, default=0.4)
    fee_share: float = share(
        "Selling fees as a share of the price", label="Selling fees", low=0, high=0.6, default=0
    )
    fee_fixed_money: float = number("Selling fee of one bait", low=0, high=50, default=0)
    order_fee_money: float = number("Fixed selling fee of one order", low=0, high=500, default=0)
    floor_margin: float = share(
        "Margin that no quantity price may fall under", low=0, high=0.95, default=0.2
    )
    remelt_credit_share: float = share(
        "Worth of remelt of one color against fresh plastic; of mixed colors it counts 0",
        low=0, high=1, default=0.5,
    )  # fmt: skip
    stock_method: Method = pick(
        "How materials taken from the shelf are charged; it holds from the next purchase on",
        label="Stock is charged at", default=Method.AVERAGE,
    )  # fmt: skip
    demo: bool = flag("This bench is invented, for looking around")
