"""Plan one batch: from plain numbers to everything its sheet shows."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn, left_out
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.errors import NoAnswer
from pourwright.base.source import estimate, published
from pourwright.color.dose import Dose
from pourwright.color.plastic import RawPlastic
from pourwright.color.swatch import swatch
from pourwright.fill.reject import good_baits, short_risk
from pourwright.forecast.heat import Cook
from pourwright.forecast.request import BatchRequest, MoneyPart
from pourwright.matter import plastisol
from pourwright.plan import cost as costs
from pourwright.plan.barrel import barrel_figures
from pourwright.plan.batch_plan import BatchPlan, CostLine, CupPlan, Figure, HeatPlan, LayerLook
from pourwright.plan.bench_time import BenchTime, bench_time
from pourwright.plan.cooking import heat_plans, kitchen_of
from pourwright.plan.figure import figure
from pourwright.plan.layer import PLAIN, LayerPlan, cup_plans, dose_of, layer_plan
from pourwright.plan.remelt import remelt_assumption, remelt_dose
from pourwright.plan.risk import warnings_of
from pourwright.plan.softness import softness
from pourwright.shop.cost import BatchCostAnswer
from pourwright.shop.price import PriceAnswer

DRAWS = 80
UNCALIBRATED = "Uncalibrated: a swatch from the colors entered, not from poured pucks."
CALIBRATED = "From your own pucks."
CLEAR = "No colorant: the plain base."


@dataclass(frozen=True, slots=True)
class Batch:
    """A batch while it is being planned."""

    request: BatchRequest
    draws: Draws
    layers: tuple[LayerPlan, ...]
    cups: tuple[CupPlan, ...]
    heat: tuple[tuple[HeatPlan, Cook], ...]
    bait_g: Array
    good: Array
    time: BenchTime

    @property
    def first(self) -> LayerPlan:
        """Any layer stands for the shots and the count of all."""
        return self.layers[0]


@calculation(
    "plan.batch",
    purpose="a whole batch: weigh-out, heat, pour, cool, cost and price, with bands",
    sources=(
        published("mass balance; Incropera and DeWitt, 6th ed., for cooling and losses"),
        estimate("typical values and bands where nobody measured, each named in the answer"),
    ),
    example={
        "bait": {"mass_g": 9}, "mold": {"cavities": 2}, "count": 24, "cup": {"brim_ml": 473},
    },
)  # fmt: skip
def plan_batch(request: BatchRequest) -> BatchPlan:
    """The plan of a batch. Four entries are enough; each value left out is named.

    Where no price leaves the margin the plan has none, and says why.
    Raises: NoAnswer where a shot fits neither injector nor cup, or where the mold never cools a
    bait.
    """
    batch = _batched(request)
    money = _cost(batch)
    soft = softness(request.plastic, batch.layers, request.seed)
    drawn_each = barrel_figures(batch.draws, batch.layers)
    priced, no_price = _priced(request, money)
    figures = (
        *_weights(batch), *drawn_each, *soft, *_times(batch), *_money(batch, money, priced),
    )  # fmt: skip
    materials = costs.used(batch.draws, request, batch.layers, batch.cups)
    shelf = costs.shelf_lines(materials)
    return BatchPlan(
        title=_title(request),
        shots=batch.first.account.shots,
        loads=sum(layer.account.loads for layer in batch.layers),
        figures=figures,
        cups=batch.cups,
        heat=tuple(plan for plan, _ in batch.heat),
        looks=_looks(batch),
        costs=tuple(
            CostLine(k.kind, k.amount_money, "")
            for k in money.kinds
            if k.amount_money.low or k.amount_money.high
        ),
        shelf=shelf,
        warnings=warnings_of(request, batch.cups, batch.heat, shelf, batch.time),
        assumptions=_assumptions(request),
        pour=batch.time.pour,
        no_price=no_price,
    )


def _batched(request: BatchRequest) -> Batch:
    draws = Draws(seed=request.seed, count=DRAWS)
    rejects = drawn(draws, request.hands, "hands ")["reject_share"]
    parts = request.layers or (PLAIN,)
    layers = tuple(layer_plan(draws, request, part, float(rejects[0])) for part in parts)
    total = sum(float(layer.plastic_g[0]) for layer in layers)
    cups: list[CupPlan] = []
    for layer in layers:
        remelt = request.remelt.available_g * float(layer.plastic_g[0]) / total
        cups += cup_plans(request, layer, first=len(cups) + 1, remelt_g=remelt)
    heat = heat_plans(kitchen_of(request, draws), cups, remelt_dose(draws, request.remelt))
    bait = np.asarray(sum(layer.bait_g for layer in layers))
    good = good_baits(draws, layers[0].account, request.mold.cavities, rejects)
    time = bench_time(draws, request, layers, tuple(cups), heat)
    return Batch(request, draws, layers, tuple(cups), heat, bait, good, time)


def _weights(batch: Batch) -> tuple[Figure, ...]:
    request, draws, account = batch.request, batch.draws, batch.first.account
    plastic = np.asarray(sum(layer.plastic_g for layer in batch.layers))
    density = np.asarray(sum(layer.part.share * layer.mix.density_g_ml for layer in batch.layers))
    cold = plastic / density
    hot = cold * plastisol.COLD_DENSITY_G_ML.typical / plastisol.HOT_DENSITY_G_ML.typical
    shot = (
        (
            f"{account.shots} shots of {request.mold.cavities}, "
            f"{account.warmup_shots} of them to warm up"
        ),
        f"{len(batch.cups)} cups with residue and heel",
    )
    made = "grams in = grams out: baits, feed, heel, residue"
    risk = short_risk(
        account, request.mold.cavities,
        drawn(draws, request.hands, "hands ")["reject_share"], count=request.count,
    )  # fmt: skip
    return (
        figure(draws, "plastic_g", "Plastic to heat, all in", plastic, unit="g", inputs=shot,
               source=made),
        figure(draws, "plastic_cold_ml", "The same, cold", cold, unit="ml",
               inputs=("plastic", "cold density of the mix"), source="volume = mass / density"),
        figure(draws, "plastic_hot_ml", "The same, hot", hot, unit="ml",
               inputs=("plastic", "hot density"), source="plasticizer expansion, estimate"),
        figure(draws, "bait_g", "One bait", batch.bait_g, unit="g",
               inputs=("entered weight, or volume × packed density",), source=made),
        figure(draws, "bait_density_g_ml", "Density of the bait", density, unit="g_ml",
               inputs=("plastic and additives",), source="additive volumes"),
        figure(draws, "good", "Good baits to expect", batch.good, unit="",
               inputs=(*shot, "share of rejects"), source="binomial with an uncertain share"),
        figure(draws, "short_risk", "Chance of too few", risk, unit="",
               inputs=("good baits", f"count {request.count}"), source="binomial tail"),
        figure(draws, "spare", "Spare baits", float(account.spare), unit="",
               inputs=("shots are whole",), source=made),
        figure(draws, "waste_g", "To the remelt pot", float(_remelt_out(batch)), unit="g",
               inputs=("sprue, runners, heel, rejects, warm-up",), source=made),
    )  # fmt: skip


def _remelt_out(batch: Batch) -> float:
    return sum(
        a.feed_g + a.heel_g + a.reject_g + a.warmup_g for a in (x.account for x in batch.layers)
    )


def _times(batch: Batch) -> tuple[Figure, ...]:
    draws, time, request = batch.draws, batch.time, batch.request
    thick = drawn(draws, request.bait, "bait ")["thickest_mm"]
    found = [
        figure(draws, "thickest_mm", "Thickest place", thick, unit="mm",
               inputs=("the bait's shape or caliper",), source="largest ball that fits inside"),
        figure(draws, "cup_window_s", "Cup stays pourable", time.cup_window_s, unit="s",
               inputs=("from the pour temperature to 155 °C", "cup and its glass"),
               source="reduced cup without power"),
        figure(time.draws, "open_s", "Open the mold after", time.open_s, unit="s",
               inputs=("thickest place", "mold and melt temperature", "firm at 50 to 70 °C"),
               source="finite volumes, Incropera and DeWitt, 6th ed., sec. 5.10"),
        figure(time.draws, "open_last_s", "The same at a cup's last shot, molds warm",
               time.open_last_s, unit="s", inputs=("molds warmed shot by shot, cooled at rest",),
               source="heat balance of bait and mold"),
        figure(time.draws, "minutes", "Minutes in all", time.minutes, unit="min",
               inputs=("weighing, heating, pouring in turn, finishing", "one pair of hands"),
               source="the acts of the first cup, followed; estimate until you time them"),
    ]  # fmt: skip
    if time.injector_window_s is not None:
        found.append(
            figure(time.draws, "injector_window_s", "Injector stays shootable",
                   time.injector_window_s, unit="s",
                   inputs=("from the pour temperature to 155 °C", "bore and preheat"),
                   source="finite volumes, Incropera and DeWitt, 6th ed., sec. 5.10")
        )  # fmt: skip
    return tuple(found)


def _cost(batch: Batch) -> BatchCostAnswer:
    draws, request = batch.draws, batch.request
    heated = {n: done for plan, done in batch.heat for n in plan.cups}
    kwh = np.asarray(
        sum(
            costs.kilowatt_hours(done.power_w, sum(r.on_s for r in done.rounds))
            for done in heated.values()
        )
    )
    return costs.batch_cost_of(
        draws,
        request,
        costs.used(draws, request, batch.layers, batch.cups),
        shots=batch.first.account.shots,
        heat_kwh=draws.band(kwh),
        minutes=draws.band(batch.time.minutes),
        remelt_in_g=sum(c.remelt_g for c in batch.cups),
        remelt_out_g=_remelt_out(batch),
        good=draws.band(batch.good),
    )


def _priced(request: BatchRequest, money: BatchCostAnswer) -> tuple[PriceAnswer | None, str | None]:
    """The price, or why there is none."""
    try:
        return costs.price_of(request, money.each_money), None
    except NoAnswer as none:
        return None, str(none)


def _money(
    batch: Batch, money: BatchCostAnswer, priced: PriceAnswer | None
) -> tuple[Figure, ...]:  # fmt: skip
    draws, request = batch.draws, batch.request
    plastic = drawn(draws, request.plastic, "plastic ")["price_per_kg_money"]
    total = Figure(
        "cost_total_money", "Cost of the batch", money.total_money, "money",
        ("materials, power, wear, labor, packing, less remelt",), "sum of its kinds",
        _of(money, "total_money"),
    )  # fmt: skip
    each = Figure(
        "cost_each_money", "Cost of one good bait", money.each_money, "money",
        ("cost of the batch", "good baits"), "cost / good baits", _of(money, "each_money"),
    )  # fmt: skip
    per_kg = figure(
        draws, "plastic_price_per_kg_money", "Plastic, a kilogram", plastic, unit="money",
        inputs=("what the jug cost and weighed",), source="entered",
    )  # fmt: skip
    price = () if priced is None else (_price(request.money, priced),)
    return (total, each, *price, per_kg)


def _price(asked: MoneyPart, priced: PriceAnswer) -> Figure:
    return Figure(
        "price_money", "Price for the margin", priced.price_money, "money",
        ("cost of one good bait", f"margin {asked.margin:.0%}", *priced.notes),
        "(cost + fee) / (1 - margin - fees), up to the cent", (),
    )  # fmt: skip


def _of(money: BatchCostAnswer, figure: str) -> tuple[str, ...]:
    """What the notes say of a figure, without its name, which stands above them."""
    others = tuple(f"{key}: " for key in ("total_money", "each_money") if key != figure)
    mine = (n for n in money.notes if not n.startswith(others))
    return tuple(n.removeprefix(f"{figure}: ") for n in mine)


def _looks(batch: Batch) -> tuple[LayerLook, ...]:
    thick = float(drawn(batch.draws, batch.request.bait, "bait ")["thickest_mm"][0])
    looks = []
    for layer in batch.layers:
        doses = [dose_of(d) for d in layer.part.doses]
        plastic = RawPlastic(constants=batch.request.plastic.constants)
        shown = swatch(doses, thick_mm=min(thick, 60.0), plastic=plastic)
        looks.append(
            LayerLook(
                layer=layer.part.name,
                share=layer.part.share,
                over_white=shown.over_white,
                over_dark=shown.over_dark,
                calibrated=_calibrated(doses, plastic),
                notes=_look_notes(doses, plastic),
            )
        )
    return tuple(looks)


def _calibrated(doses: list[Dose], plastic: RawPlastic) -> bool:
    colored = [d.colorant for d in doses if d.colorant]
    return bool(colored) and plastic.constants is not None and all(c.measured for c in colored)


def _look_notes(doses: list[Dose], plastic: RawPlastic) -> tuple[str, ...]:
    colored = [d.colorant for d in doses if d.colorant]
    if not colored:
        return (CLEAR,)
    if _calibrated(doses, plastic):
        return (CALIBRATED,)
    return (UNCALIBRATED, *dict.fromkeys(c.limit for c in colored if c.limit))


def _title(request: BatchRequest) -> str:
    return f"{request.count} × {request.bait.name}"


def _assumptions(request: BatchRequest) -> tuple[str, ...]:
    parts = (
        ("bait", request.bait), ("mold", request.mold), ("cup", request.cup),
        ("injector", request.injector), ("plastic", request.plastic), ("oven", request.oven),
        ("hands", request.hands), ("money", request.money), ("room", request),
        *((f"{layer.name}: {d.name}", d) for layer in request.layers for d in layer.doses),
    )  # fmt: skip
    told = tuple(
        f"{name}: {note}"
        for name, part in parts
        if part is not None
        for note in left_out(part, unused=_unused(part))
    )
    return (*told, *remelt_assumption(request.remelt))


def _unused(part: object) -> tuple[str, ...]:
    measure = getattr(part, "measure", None)
    if measure is None:
        return ()
    keep = {"drops": "drop_mass_g", "level teaspoons": "spoon_g"}.get(measure.value, "")
    names = {"drop_mass_g", "spoon_g"} - {keep}
    tints = getattr(part, "color_hex", "") and getattr(part, "sort", "") != "flake"
    return tuple(names | (set() if tints else {"strength"}))
