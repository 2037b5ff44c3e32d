"""What a purchase changes in a month."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.band import Band, exact
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.plan.kit.growth_input import GrowthInput, Purchase


@dataclass(frozen=True, slots=True)
class Gain:
    """A month with the purchase against one without it, drawn."""

    money: Array
    saved_min: Array
    more_packs: Array


@dataclass(frozen=True, slots=True)
class ShopNow:
    """How the shop stands, drawn."""

    sold: Array
    wanted: Array
    left: Array
    minutes: Array
    baits: int
    wage: float


def shop_now(draws: Draws, inputs: GrowthInput) -> ShopNow:
    """The shop's figures; where nobody knows what is wanted, it is what is sold."""
    sold = _drawn(draws, "sold", "packs sold in a month", inputs.packs_per_month)
    wanted = inputs.wanted_packs_per_month
    return ShopNow(
        sold,
        sold if wanted is None else _drawn(draws, "wanted", "packs wanted in a month", wanted),
        _drawn(draws, "left", "what a pack leaves", inputs.left_each_money),
        _drawn(draws, "minutes", "minutes of a bait", inputs.minutes_each),
        inputs.baits_each,
        inputs.labor_per_h_money,
    )


def gain_of(draws: Draws, now: ShopNow, it: Purchase) -> Gain:
    """The same hours make more packs where a bait takes fewer minutes, as far as they are wanted.

    No more are made where a pack leaves nothing; what is sold now goes on being made.
    """
    share = _drawn(
        draws, f"share {it.name}", f"time saved by {it.name}", it.minutes_share or exact(1)
    )
    saved = _drawn(
        draws, f"saved {it.name}", f"cost saved by {it.name}", it.saved_each_money or exact(0)
    )
    work = now.baits * now.minutes / 60 * now.wage
    left = now.left + now.baits * saved - work * share
    makes = np.maximum(np.minimum(now.wanted, now.sold / share), now.sold)
    packs = np.where(left > 0, makes, now.sold)
    return Gain(
        money=packs * left - now.sold * (now.left - work),
        saved_min=now.baits * now.minutes * (now.sold - packs * share),
        more_packs=packs - now.sold,
    )


def _drawn(draws: Draws, key: str, label: str, given: Band) -> Array:
    return draws.of(key, Doubt(label, given))
