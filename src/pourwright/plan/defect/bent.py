"""Bent or kinked."""

from __future__ import annotations

from pourwright.plan.caution import BURNS
from pourwright.plan.defect.common import OPENED_SOON, WAITED
from pourwright.plan.defect.defect import Ask, Cause, Cure, Defect, Option

PACKED = Cause(
    "packed",
    "It was hung or packed crooked",
    "A bait takes the shape it lies in for days, the faster the warmer it is.",
    (
        Cure("Hang or lay it straight until it is cold through, and bag it flat."),
        Cure("Warm bent ones in hot tap water, lay them straight in cold water, dry them."),
    ),
    no_number="How fast a bait takes a set was not measured by anybody: no number.",
)

BENT = Defect(
    "bent",
    "Bent or kinked",
    "It does not lie straight when laid down.",
    (
        WAITED,
        Ask(
            "when",
            "When was it seen?",
            (
                Option("Right out of the mold", ("opened_soon",), ("packed",)),
                Option("Out of the bag", ("packed",), ("opened_soon",)),
            ),
        ),
    ),
    (OPENED_SOON, PACKED),
    counted=("other",),
    caution=BURNS,
)
