"""Whether the mold of a plan fills: the odds at its injector and pouring temperature."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.mold_case import MoldEntry, mold_case, push_fields
from pourwright.actions.port import Bench
from pourwright.actions.time_shot import believed
from pourwright.base.band import Band
from pourwright.fill.fill_input import FillInput
from pourwright.fill.push import Push
from pourwright.forecast.full_odds import full_odds
from pourwright.shop.draft import Draft

# How much cooler the plastic is at the push than in the stirred cup, and how far that may be off:
# estimates, from a barrel at room temperature to one primed with hot plastic.
COOLER_K, DOUBT_K = 10.0, 9.0


@dataclass(frozen=True, slots=True)
class Fills:
    """A mold, the push a plan stands for, and the odds of a full shot."""

    mold: str
    entry: MoldEntry
    odds: Band


def fills(bench: Bench, draft: Draft) -> Fills | None:
    """The odds of a full shot of a plan.

    None where nothing can be said: no mold, no shape, an open mold, poured by hand, or cavities
    typed by hand.
    """
    if not draft.mold or draft.by_hand or draft.cavities:
        return None
    case = mold_case(bench, draft.mold)
    if case.mold.open_face or not case.forecast:
        return None
    entry = MoldEntry(
        plastic=draft.plastic, injector=draft.injector, melt_c=draft.target_c - COOLER_K,
        mold_c=draft.mold_c,
    )  # fmt: skip
    asked = FillInput(
        **case.fields(), **push_fields(bench, Push.ONE_HAND, None, draft.injector),
        melt_c=entry.melt_c, melt_doubt_k=DOUBT_K, mold_c=draft.mold_c,
        melt_pa_s=believed(bench, draft.plastic).melt_pa_s,
    )  # fmt: skip
    return Fills(draft.mold, entry, full_odds(asked))
