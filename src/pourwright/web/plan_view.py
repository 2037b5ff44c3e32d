"""A plan as its page and its sheet show it: grouped, and drawn."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.plan.batch_plan import BatchPlan, CupPlan, Figure, HeatPlan
from pourwright.web.heat_chart import HeatChart, heat_chart
from pourwright.web.pour_chart import PourChart, pour_chart

HEAD = ("plastic_g", "minutes", "cost_each_money", "price_money")
BATCH = ("plastic_cold_ml", "bait_g", "bait_density_g_ml", "good", "spare", "waste_g")
POUR = ("cup_window_s", "injector_window_s", "thickest_mm", "open_s", "open_last_s")
MONEY = ("cost_total_money", "cost_each_money", "price_money")


@dataclass(frozen=True, slots=True)
class CupGroup:
    """Cups that are alike."""

    words: str
    cup: CupPlan


@dataclass(frozen=True, slots=True)
class PlanView:
    """A plan, its figures by use, its cups by likeness, its heating drawn."""

    plan: BatchPlan
    head: tuple[Figure, ...]
    batch: tuple[Figure, ...]
    pour: tuple[Figure, ...]
    money: tuple[Figure, ...]
    cups: tuple[CupGroup, ...]
    heat: tuple[tuple[HeatPlan, HeatChart], ...]
    pour_chart: PourChart | None
    most_money: float
    short_risk: float
    inside: tuple[str, ...]
    mold: str


def plan_view(plan: BatchPlan, inside: tuple[str, ...] = (), mold: str = "") -> PlanView:
    """What a template needs of a plan.

    `inside` leads to a picture for each of its heat plans, `mold` to the page of its mold.
    """
    by_key = {f.key: f for f in plan.figures}

    def named(keys: tuple[str, ...]) -> tuple[Figure, ...]:
        return tuple(by_key[k] for k in keys if k in by_key)

    return PlanView(
        plan=plan,
        head=named(HEAD),
        batch=(*named(BATCH), *(f for f in plan.figures if f.key.startswith("hardness"))),
        pour=named(POUR),
        money=named(MONEY),
        cups=_groups(plan.cups),
        heat=tuple((h, heat_chart(h)) for h in plan.heat),
        pour_chart=pour_chart(plan.pour) if plan.pour else None,
        most_money=max((abs(c.amount_money.typical) for c in plan.costs), default=1.0) or 1.0,
        short_risk=by_key["short_risk"].value.typical,
        inside=inside,
        mold=mold,
    )


def _groups(cups: tuple[CupPlan, ...]) -> tuple[CupGroup, ...]:
    alike: list[list[CupPlan]] = []
    for cup in cups:
        if alike and _same(alike[-1][0], cup):
            alike[-1].append(cup)
        else:
            alike.append([cup])
    return tuple(CupGroup(_words(group), group[0]) for group in alike)


def _same(a: CupPlan, b: CupPlan) -> bool:
    return (a.layer, a.shots, a.virgin_g, a.remelt_g) == (b.layer, b.shots, b.virgin_g, b.remelt_g)


def _words(group: list[CupPlan]) -> str:
    first, last = group[0].number, group[-1].number
    if first == last:
        return f"Cup {first}"
    return f"Cups {first} to {last}, each"
