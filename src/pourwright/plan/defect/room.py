"""How much hotter plastic may be made, if at all."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pourwright.base.band import Band
from pourwright.base.units import in_both
from pourwright.heat.scorch_words import BLEND, USE_SOON
from pourwright.matter.scorch import hot_limit, warmest_c
from pourwright.plan.defect.defect import Cure

# One step hotter, then look again; estimate.
STEP_K, LEAST_STEP_K = 5.0, 2.0


@dataclass(frozen=True, slots=True)
class Room:
    """The plastic as it was poured, its limit, and the heat budget it has used."""

    melt_c: float
    flash_point_c: float | None
    dose_share: Band
    yellowed: bool = False

    @property
    def warmest_c(self) -> float:
        """The warmest mean that leaves the hottest place of a cup under its limit."""
        return warmest_c(hot_limit(self.flash_point_c)[0])

    @property
    def next_c(self) -> float | None:
        """One step hotter in whole degrees; none where there is no room."""
        if self.closed_by:
            return None
        return float(math.floor(min(self.melt_c + STEP_K, self.warmest_c)))

    @property
    def closed_by(self) -> str:
        """Why it may not be made hotter; empty where it may."""
        limit_c, why = hot_limit(self.flash_point_c)
        if self.yellowed:
            return "yellowed plastic is discarded, not reheated"
        if math.floor(self.warmest_c) < self.melt_c + LEAST_STEP_K:
            return (
                f"it was poured at {in_both(self.melt_c)}, and its hottest place must stay under "
                f"{in_both(limit_c)} ({why})"
            )
        if self.dose_share.typical >= USE_SOON:
            return f"{self.dose_share.typical:.0%} of its heat budget is used"
        return ""

    @property
    def cold_by(self) -> str:
        """Why it may not be heated once more at all; empty where it may."""
        if self.yellowed:
            return "Yellowed plastic is discarded, not reheated."
        if self.dose_share.typical >= BLEND:
            return f"Not to be rewarmed: {self.dose_share.typical:.0%} of its heat budget is used."
        return ""


def cure_words(cure: Cure, room: Room) -> str:
    """A cure as it may be said of this plastic."""
    if cure.reheats:
        return f"{room.cold_by} {cure.instead}".strip() if room.cold_by else cure.words
    if not cure.hotter:
        return cure.words
    if room.next_c is None:
        return f"No room to heat it: {room.closed_by}. {cure.instead}"
    return f"{cure.words} {in_both(room.next_c)} at most, no longer there than you need."
