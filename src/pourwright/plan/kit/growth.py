"""What the next purchase does best: what it saves and earns in a month, and when it is paid."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.assume import width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.field import out
from pourwright.base.source import PRACTICE
from pourwright.plan.kit.gain import Gain, gain_of, shop_now
from pourwright.plan.kit.growth_input import GrowthInput, Purchase
from pourwright.shop.money import Money
from pourwright.shop.until import Until, in_words, over, until

NO_WANTED = (
    "packs you could sell in a month were left out: no more is sold than now, so time saved is "
    "worth your hour and no sale. To know better, note what you had to turn away in a month."
)
NO_FIGURE = "nobody knows what it saves"


@dataclass(frozen=True, slots=True)
class Ranked:
    """A purchase with what it does."""

    name: str = out("What could be bought")
    cost_money: float = out("Its price")
    gain_money: Band = out("What it saves and earns in a month")
    saved_min: Band = out("Minutes less work in a month, the packs more made with it")
    more_packs: Band = out("Packs more in a month in the same hours, as far as they are wanted")
    months: Until = out("Months until it is paid back")
    why: str = out("The same in words")


@dataclass(frozen=True, slots=True)
class NotRanked:
    """A purchase that has no place in the ranking."""

    name: str = out("What could be bought")
    why: str = out("Why")


@dataclass(frozen=True, slots=True)
class GrowthAnswer:
    """Purchases, the one first that is paid back soonest."""

    ranked: tuple[Ranked, ...] = out("By months until it is paid back")
    never: tuple[NotRanked, ...] = out("What does not pay back at these figures")
    unknown: tuple[NotRanked, ...] = out("What has no figure, and which record would give it")
    notes: tuple[str, ...] = out("What the ranking rests on")


@calculation(
    "shop.growth",
    purpose="what the next dollar does best",
    sources=(PRACTICE,),
    example={
        "packs_per_month": {"low": 10, "typical": 14, "high": 20},
        "wanted_packs_per_month": {"low": 14, "typical": 20, "high": 30},
        "baits_each": 8, "minutes_each": {"low": 1.6, "typical": 2.2, "high": 3.4},
        "left_each_money": {"low": 5.2, "typical": 6.1, "high": 6.6},
        "purchases": [
            {"name": "Second mold", "cost_money": 60,
             "minutes_share": {"low": 0.74, "typical": 0.79, "high": 0.86}},
            {"name": "Bigger cup", "cost_money": 16,
             "minutes_share": {"low": 0.9, "typical": 0.95, "high": 1}},
            {"name": "Vacuum chamber", "cost_money": 140,
             "measure": "count the baits with bubbles of five lots"},
        ],
    },
)  # fmt: skip
def growth(inputs: GrowthInput) -> GrowthAnswer:
    """Gain in a month = what the packs leave with the purchase, less what they leave now.

    With fewer minutes a bait the same hours make more packs; they count as far as they are
    wanted. Time beyond that is worth the hour's wage. Nothing is ranked without a figure.
    Raises: BadInput for two purchases of one name, or fewer packs wanted than sold.
    """
    draws = Draws(seed=1)
    now = shop_now(draws, inputs)
    known = [p for p in inputs.purchases if p.minutes_share or p.saved_each_money]
    gains = {p.name: gain_of(draws, now, p) for p in known}
    paying = [p for p in known if gains[p.name].money[0] > 0]
    ranked = sorted(
        (_ranked(draws, p, gains[p.name]) for p in paying), key=lambda r: r.months.typical
    )
    return GrowthAnswer(
        tuple(ranked),
        tuple(NotRanked(p.name, _no_gain(gains[p.name])) for p in known if p not in paying),
        tuple(NotRanked(p.name, _no_figure(p)) for p in inputs.purchases if p not in known),
        (
            *width_notes(draws, {f"gain of {r.name}": gains[r.name].money for r in ranked[:1]}),
            *(() if inputs.wanted_packs_per_month else (NO_WANTED,)),
        ),
    )


def _ranked(draws: Draws, it: Purchase, gain: Gain) -> Ranked:
    months = until(over(it.cost_money, gain.money), it.cost_money / float(gain.money[0]))
    return Ranked(
        it.name,
        it.cost_money,
        draws.band(gain.money),
        draws.band(gain.saved_min),
        draws.band(gain.more_packs),
        months,
        f"paid back in {in_words(months, 'month', 1)}: {_does(gain)}",
    )


def _does(gain: Gain) -> str:
    month = Money.of(float(gain.money[0]))
    does = [f"{month.told} a month"]
    if _typical(gain.more_packs) >= 1:
        does.append(f"{gain.more_packs[0]:,.0f} packs more")
    if _typical(gain.saved_min) >= 1:
        does.append(f"{gain.saved_min[0]:,.0f} minutes less work")
    return ", ".join(does)


def _no_gain(gain: Gain) -> str:
    loss = -_typical(gain.money)
    return (
        f"costs {Money.of(loss).told} a month more than it brings"
        if loss > 0
        else "changes nothing"
    )


def _no_figure(it: Purchase) -> str:
    return f"{NO_FIGURE}: {it.measure}" if it.measure else NO_FIGURE


def _typical(values: Array) -> float:
    return float(values[0])
