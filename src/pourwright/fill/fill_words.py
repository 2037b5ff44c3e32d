"""What the odds of a full shot mean at the bench."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from pourwright.base.band import Band
from pourwright.base.units import in_both
from pourwright.fill.fill_input import Pushed
from pourwright.fill.melt import melt_note
from pourwright.fill.outcome import Outcome
from pourwright.fill.push import ONE_HAND_N, TWO_HANDS_N, Push, push_note
from pourwright.matter.scorch import warmest_c

WEARING = (
    "Hot plastic under pressure squirts: mold clamped, face shield, heat gloves and sleeves, "
    "nobody in line with the parting line. Mold and injector bone dry: water flashes to steam."
)
POURING = (
    "Hot plastic splashes, sticks and burns: face shield, heat gloves and sleeves, extraction on. "
    "Mold and funnel bone dry: water flashes to steam and throws the plastic."
)
BY_HAND = (
    "Poured by hand, the plastic's own weight presses a few hundred times less than a plunger: "
    "closed molds want a warm or insulating mold; open-faced ones are made for it."
)


def odds_words(pushed: Pushed, melt_pa_s: Band | None) -> Iterable[str]:
    """Which typical values stand in besides those of plain fields, and what the odds count."""
    yield from melt_note(melt_pa_s)
    if pushed.push_n is None and pushed.push is not Push.POUR:
        push = TWO_HANDS_N if pushed.push is Push.TWO_HANDS else ONE_HAND_N
        yield push_note(push)
    yield (
        "The odds count cases of what is not known here; their range is that of the count alone. "
        "The flow model itself is an estimate: a timed shot of your own counts for more."
    )


def short_words(found: Outcome, push: Push) -> Iterable[str]:
    """What holds the short shots back, and how to be safe."""
    stiff = float(np.mean(~found.shot.chill.fluid[1:]))
    if stiff > 0:
        yield f"In {stiff:.0%} of the cases the plastic no longer flows at that temperature."
    if found.front.going[1:].any() and not found.full[found.front.going].all():
        yield "Some shots fill the body and miss a thin branch beside it: see the branches."
    yield from (BY_HAND, POURING) if push is Push.POUR else (WEARING,)


def hot_words(melt_c: float, limit_c: float, why: str) -> Iterable[str]:
    """How hot the plastic may be, and a caution where it is hotter."""
    if melt_c > limit_c:
        yield (
            f"The plastic is over the limit of {in_both(limit_c)} ({why}): let it cool before it "
            "is shot. Smoke or a sharp smell: out of the room, air it, no more heat."
        )
    else:
        yield (
            f"The hottest place of the cup must stay under {in_both(limit_c)} ({why}), so no more "
            f"than {in_both(warmest_c(limit_c))} at the push is advised."
        )
