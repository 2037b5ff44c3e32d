"""The weight wanders from bait to bait."""

from __future__ import annotations

from pourwright.plan.caution import BURNS
from pourwright.plan.defect.common import GAP, SALT_SANK, STOPPED
from pourwright.plan.defect.defect import Ask, Cause, Cure, Defect, Option

SCALE = Cause(
    "scale",
    "The scale, not the bait",
    "A scale that reads to a tenth of a gram makes steps of its own, and it drifts as it warms.",
    (Cure("Weigh five together, and one and the same bait five times."),),
    no_number="Weigh one bait five times: what it wanders by then is the scale.",
)

WEIGHT = Defect(
    "weight",
    "Weight wanders",
    "Baits of one lot differ on the scale.",
    (
        Ask(
            "way",
            "Which way does it go?",
            (
                Option("Heavier toward the end of a cup", ("salt_sank",), ("stopped", "scale")),
                Option("Some too light", ("stopped",), ("gap",)),
                Option("Some too heavy", ("gap",), ("stopped",)),
                Option("By the smallest step of the scale", ("scale",)),
            ),
        ),
    ),
    (STOPPED, GAP, SALT_SANK, SCALE),
    caution=BURNS,
)
