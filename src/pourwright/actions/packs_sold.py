"""How many packs of a bait go out in a month."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass

from pourwright.actions.port import Bench
from pourwright.actions.sales_of import sales_of
from pourwright.base.band import Band
from pourwright.base.draws import Z90

# The sales of so many days stand for the present, counted as so many months.
DAYS, MONTHS = 91, 3


@dataclass(frozen=True, slots=True)
class Sold:
    """Packs in a month, none where nothing was ever sold, and packs to an order.

    `until` is the day up to which the sales were counted.
    """

    per_month: Band | None
    per_order: float
    until: str = ""


def packs_sold(bench: Bench, bait: str = "", baits_each: int = 1) -> Sold:
    """Sales in packs of so many, over the three months up to the newest sale of anything.

    Those of every bait where none is named. The range is that of sales that come at random.
    """
    kept = [it.sale for it in sales_of(bench) if it.stands]
    until = max((sale.sold_on for sale in kept), default="")
    if not until:
        return Sold(None, 1.0)
    since = (dt.date.fromisoformat(until) - dt.timedelta(days=DAYS)).isoformat()
    lines = [
        [x for x in sale.lines if bait in {"", x.bait}] for sale in kept if sale.sold_on > since
    ]
    orders = [sum(x.packs * x.baits_each for x in some) / baits_each for some in lines if some]
    if not orders:
        return Sold(Band(0, 0, 0), 1.0, until)
    packs = sum(orders)
    # Orders come at random; the packs of an order come together.
    doubt = Z90 * math.sqrt(sum(n * n for n in orders))
    month = Band(max(packs - doubt, 0) / MONTHS, packs / MONTHS, (packs + doubt) / MONTHS)
    return Sold(month, max(packs / len(orders), 1.0), until)
