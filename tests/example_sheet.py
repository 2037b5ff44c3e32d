"""Invented batch sheets for tests: every name, weight, reading and price here is made up."""

from __future__ import annotations

import dataclasses
from typing import Any

from pourwright.base.band import Band, exact
from pourwright.base.record import to_json
from pourwright.plan.batch_plan import (
    BatchPlan,
    Caution,
    CostLine,
    CupPlan,
    Figure,
    HeatPlan,
    HeatRound,
    LayerLook,
    ReadRow,
    ShelfLine,
    WeighLine,
)
from pourwright.shop.code import lot_code
from pourwright.shop.sheet import Sheet

FROZEN_AT = "2026-06-14T15:02:11Z"
REQUEST = {
    "bait": {"name": "Five-inch reed worm"},
    "mold": {"name": "Reed worm mold", "cavities": 4, "owned": 2},
    "cup": {"name": "Big pouring cup"},
    "injector": {"name": "Six-ounce injector"},
    "plastic": {"name": "Medium plastic, jug of May"},
}


def figure(key: str, unit: str, low: float, typical: float, high: float) -> Figure:
    return Figure(key, key.replace("_", " "), Band(low, typical, high), unit, (), "invented", ())


FIGURES = (
    figure("plastic_g", "g", 681, 712, 766),
    figure("plastic_cold_ml", "ml", 640, 677, 731),
    figure("plastic_hot_ml", "ml", 702, 751, 812),
    figure("bait_g", "g", 8.7, 9.1, 9.6),
    figure("bait_ml", "ml", 8.4, 8.6, 8.9),
    figure("bait_density_g_ml", "g_ml", 1.03, 1.058, 1.1),
    figure("good", "", 46, 52, 55),
    figure("short_risk", "", 0.04, 0.04, 0.04),
    figure("spare", "", 4, 4, 4),
    figure("waste_g", "g", 212, 212, 212),
    figure("load_ml", "ml", 177.4, 177.4, 177.4),
    figure("cup_window_s", "s", 189, 245, 316),
    figure("injector_window_s", "s", 38, 71, 124),
    figure("open_s", "s", 95, 150, 260),
    figure("minutes", "min", 78, 95, 131),
    figure("cost_total_money", "money", 27.1, 31.46, 38.9),
    figure("cost_each_money", "money", 0.52, 0.605, 0.79),
    figure("price_money", "money", 0.87, 1.01, 1.32),
    figure("hardness_oo", "", 29, 34, 40),
    figure("thickest_mm", "mm", 10.8, 11, 11.3),
)
DOSES = (
    WeighLine(
        "c1", "Marsh green", "colorant", 0.968, 1.0, 24, "", -0.008, "shake first"
    ),
    WeighLine(
        "c2", "Soot black", "colorant", 0.161, 0.2, 4, "", -0.006,
        "shake first; bleeds: bag apart",
    ),
    WeighLine("f1", "Copper flake, 0.6 mm", "flake", 3.36, 3.4, None, "1 + 1/4 tsp", 0.031,
              "bone dry"),
    WeighLine("s1", "Fine salt", "salt", 33.4, 33.4, None, "", 0.0, "bone dry"),
    WeighLine("h1", "Heat stabilizer", "stabilizer", 1.67, 1.7, None, "", 0.018, ""),
)  # fmt: skip
ROUNDS = (
    HeatRound(1, 130, Band(68, 77, 86), Band(88, 99, 112), Band(58, 66, 75), 0.6, 0.0, 0.2, 0.0,
              "still liquid: stir the settled resin up"),
    HeatRound(2, 95, Band(128, 139, 149), Band(146, 158, 171), Band(112, 124, 136), 1.0, 0.5, 1.0,
              0.2, "jelly and lumps: break it up and fold the bottom in"),
    HeatRound(3, 40, Band(163, 170, 178), Band(169, 176, 180), Band(157, 165, 173), 1.0, 0.97, 1.0,
              0.93, "clear and runny: ready once it reads its target; cut short so that the core "
              "stays under the limit"),
)  # fmt: skip
TABLE = tuple(
    ReadRow(float(reads), float(heat), heat * 0.86, heat * 1.2, capped)
    for reads, heat, capped in (
        (80, 185, False), (100, 150, False), (120, 115, False), (130, 100, False),
        (140, 75, False), (150, 55, False), (155, 40, True), (160, 30, True), (165, 15, True),
        (170, 0, False),
    )
)  # fmt: skip
CAUTIONS = (
    Caution("stop", "Short of Marsh green: 0.7 g missing."),
    Caution("risk", "No flash point entered: the cautious hot limit of 180 °C / 356 °F holds."),
    Caution(
        "note",
        "In one go, as is common: after 4:00 a jelly (31% fused); after 6:00 the surface reads "
        "170 °C / 338 °F (160 °C / 320 °F to 180 °C / 356 °F) while the bottom "
        "is 62% fused (underdone). The rounds are safer.",
    ),
)
SHELF = (
    ShelfLine("p1", "Medium plastic", 668.0, 3120.0, 0.0),
    ShelfLine("c1", "Marsh green", 1.94, 1.24, 0.7),
)
COSTS = (
    CostLine("materials", Band(9.9, 11.2, 14.1), ""),
    CostLine("power", exact(0.07), ""),
    CostLine("mold wear", exact(0.42), ""),
    CostLine("labor", Band(17.5, 21.2, 29.4), ""),
    CostLine("remelt credit", exact(-1.27), ""),
)


def cup(number: int, layer: str = "body", doses: tuple[WeighLine, ...] = DOSES,
        virgin_g: float = 334.2) -> CupPlan:  # fmt: skip
    return CupPlan(
        number=number, layer=layer, shots=7, shot_g=57.9, waves=4, rewarms=3, virgin_g=virgin_g,
        remelt_g=42.5, additives_g=39.6, total_g=virgin_g + 82.1, fill_line_ml=358.1,
        fill_share=0.69, lines=doses,
    )  # fmt: skip


def heat(cups: tuple[int, ...], mass_g: float = 416.3, rounds: int = 3) -> HeatPlan:
    return HeatPlan(
        cups=cups, mass_g=mass_g, power=figure("power_w", "w", 390, 475, 560), target_c=170.0,
        limit_c=180.0, limit_reason="no data sheet entered: the cautious limit holds (estimate)",
        rounds=tuple(dataclasses.replace(ROUNDS[min(i, 2)], number=i + 1) for i in range(rounds)),
        table=TABLE, minutes=Band(7, 8, 10), scorch_share=Band(0.02, 0.06, 0.15), notes=(),
    )  # fmt: skip


def look(layer: str = "body", share: float = 1.0, colors: tuple[str, str] = ("#5d7a34", "#2c3d1f")
         ) -> LayerLook:  # fmt: skip
    return LayerLook(layer, share, *colors, calibrated=False, notes=())


SIMPLE = BatchPlan(
    title="48 × Five-inch reed worm", shots=14, loads=7, figures=FIGURES, cups=(cup(1), cup(2)),
    heat=(heat((1, 2)),), looks=(look(),), costs=COSTS, shelf=SHELF, warnings=CAUTIONS,
    assumptions=(), pour=None, no_price=None,
)  # fmt: skip

_LAYERS = (
    ("body", 0.55, ("#5d7a34", "#2c3d1f")),
    ("belly", 0.25, ("#e8d9b0", "#8d8468")),
    ("back", 0.15, ("#3a2f1c", "#1d170d")),
    ("vein", 0.05, ("#c2410c", "#6b2206")),
)
_TEN = (
    *DOSES,
    WeighLine("c3", "Pumpkin brown", "colorant", 0.644, 0.6, 16, "", -0.006, "shake first"),
    WeighLine("c4", "Pearl powder, fine", "pearl_powder", 0.83, 0.8, None, "1/4 tsp", -0.12,
              "bone dry"),
    WeighLine("s2", "Softener", "softener", 11.7, 11.7, None, "", 0.0, ""),
    WeighLine("a1", "Crawfish scent", "scent", 2.9, 2.9, None, "", 0.0, "in last, off the heat"),
    WeighLine("g1", "Hollow glass", "hollow_glass", 1.2, 1.2, None, "3/4 tsp", 0.02,
              "dust: mask and eye protection as the data sheet says"),
)  # fmt: skip


def layered(cups_each: int = 1, rounds: int = 3, alike: bool = True) -> BatchPlan:
    """Four layers of ten doses, each layer with so many cups."""
    cups: list[CupPlan] = []
    plans: list[HeatPlan] = []
    for name, share, _ in _LAYERS:
        numbers = tuple(range(len(cups) + 1, len(cups) + cups_each + 1))
        grams = [600 * share + (0 if alike else 7 * i) for i in range(cups_each)]
        cups += [cup(n, name, _TEN, g) for n, g in zip(numbers, grams, strict=True)]
        sizes = [numbers] if alike else [(n,) for n in numbers]
        plans += [heat(s, 600 * share, rounds) for s in sizes]
    return dataclasses.replace(
        SIMPLE, title="96 × Four-inch slough minnow, four colors", cups=tuple(cups),
        heat=tuple(plans), looks=tuple(look(*layer) for layer in _LAYERS),
    )  # fmt: skip


_WORDY = tuple(
    dataclasses.replace(d, name=f"{d.name} of the {'very ' * 8}late harvest", note=f"{d.name} " * 9)
    for d in _TEN
)
LONG_NAMES = dataclasses.replace(
    SIMPLE,
    cups=(cup(1, "underside of the fin", _WORDY), cup(2, "underside of the fin", _WORDY, 12.34)),
    heat=(heat((1,), rounds=6), heat((2,), 94.4, 0)),
    shelf=tuple(
        ShelfLine("x", f"Unpronounceable sediment {i}", 1234567.8, 0.0, 1234567.8)
        for i in range(12)
    ),
    warnings=tuple(Caution("risk", "Mind the gap. " * 60) for _ in range(20)),
)  # fmt: skip


def sheet(
    plan: BatchPlan = SIMPLE, title: str = "Four dozen reed worms", number: int = 12
) -> Sheet:
    data: dict[str, Any] = to_json(plan)
    return Sheet(
        number=number, code=lot_code(date=FROZEN_AT[:10], number=number), frozen_at=FROZEN_AT,
        version="0.1.0", title=title, draft={}, request=REQUEST, plan=data,
    )  # fmt: skip
