"""Whether the mold of a plan fills: the odds at its injector and pouring temperature."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.mold_case import MoldEntry, mold_case, push_fields
from pourwright.actions.port import Bench
from pourwright.actions.time_shot import believed
from pourwright.base.band import Band
from pourwright.fill.fill_input import FillInput
from pourwright.fill.push import UNDER_CUP_K, Push
from pourwright.forecast.full_odds import full_odds
from pourwright.shop.draft import Draft


@dataclass(frozen=True, slots=True)
class Fills:
    """A mold, the push a plan stands for, and the odds of a full shot."""

    mold: str
    entry: MoldEntry
    odds: Band


def cooler_k(push: Push) -> float:
    """What the way from the cup to the push takes; a hand pour has no barrel."""
    return 0.0 if push is Push.POUR else UNDER_CUP_K.typical


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
        plastic=draft.plastic, injector=draft.injector, mold_c=draft.mold_c,
        melt_c=draft.target_c - cooler_k(Push.ONE_HAND),
    )  # fmt: skip
    asked = FillInput(
        **case.fields(), **push_fields(bench, Push.ONE_HAND, None, draft.injector),
        melt_c=entry.melt_c, melt_doubt_k=UNDER_CUP_K.band.half_width, mold_c=draft.mold_c,
        melt_pa_s=believed(bench, draft.plastic).melt_pa_s,
    )  # fmt: skip
    return Fills(draft.mold, entry, full_odds(asked))
