"""What came out of a guided pour, from its taps."""

from __future__ import annotations

import math

from pourwright.actions.told_pour import ToldPour
from pourwright.bench.clock import seconds_between
from pourwright.bench.tap_body import CameOut
from pourwright.shop.lot import LotEntry

# What the entry of a lot takes for minutes.
_LEAST_MIN, _MOST_MIN = 1.0, 5000.0


def counted_entry(told: ToldPour, at: str) -> LotEntry:
    """The entry of the lot: counts as tapped, shots as filled, minutes without those put away.

    More baits than the tapped shots can have made mean that a filling was not tapped: the shots
    are then as many as the baits need. Minutes that no pour can have taken are left out. Raises:
    BadInput for a count out of range.
    """
    pour, cavities = told.pour, told.setup.cavities
    count = {name: pour.tally.get(name, 0) for name in CameOut}
    needed = math.ceil(pour.baits / cavities)
    minutes = (seconds_between(pour.began_at or at, at) - pour.away_s) / 60
    return LotEntry(
        shots=max(len(pour.uses), needed),
        good=pour.good,
        trimmed=count[CameOut.TRIMMED],
        flash=count[CameOut.FLASH],
        short=count[CameOut.SHORT],
        dent=count[CameOut.DENT],
        bubble=count[CameOut.BUBBLE],
        torn=count[CameOut.TORN],
        other=count[CameOut.OTHER],
        warmup=count[CameOut.WARMUP],
        five_g=pour.five_g if pour.good else None,
        remelt_g=pour.back.remelt_g if pour.back else None,
        sprue_g=pour.back.sprue_g if pour.back else None,
        minutes=round(minutes, 1) if _LEAST_MIN <= minutes <= _MOST_MIN else None,
    )
