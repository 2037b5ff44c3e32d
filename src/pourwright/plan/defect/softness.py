"""Too soft, or too hard."""

from __future__ import annotations

from pourwright.plan.caution import BURNS
from pourwright.plan.defect.common import UNDERCOOKED, UNSHAKEN, WRONG_BLEND
from pourwright.plan.defect.defect import Ask, Cause, Cure, Defect, Option

TOO_YOUNG = Cause(
    "too_young",
    "It is not a day old, or it is warm",
    "A bait firms up over a day, and every ten degrees are felt.",
    (Cure("Judge it after a day at room temperature, beside a good one."),),
    no_number="How a bait firms over its first day has no number here: wait, then press.",
)

SOFTNESS = Defect(
    "softness",
    "Too soft or too hard",
    "It does not feel like the last lot.",
    (
        Ask(
            "when",
            "When did you press it?",
            (
                Option("The same day", ("too_young",)),
                Option("After a day or more", ("wrong_blend", "unshaken"), ("too_young",)),
            ),
        ),
        Ask(
            "since",
            "What changed?",
            (
                Option("The recipe: softener, hardener, salt", ("wrong_blend",), ("unshaken",)),
                Option("A new jug, or the last of one", ("unshaken",)),
                Option("Nothing; and it tears easily", ("undercooked",)),
            ),
        ),
    ),
    (WRONG_BLEND, UNSHAKEN, UNDERCOOKED, TOO_YOUNG),
    caution=BURNS,
)
