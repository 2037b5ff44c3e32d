"""A fold line or seam."""

from __future__ import annotations

from pourwright.plan.caution import BURNS
from pourwright.plan.defect.common import DEAD_END, STOPPED
from pourwright.plan.defect.defect import Ask, Cause, Cure, Defect, Option

PAUSED = Cause(
    "paused",
    "The push stopped for a moment",
    "The front sets a skin while it stands, and the next plastic folds over it.",
    (
        Cure("One steady push from first to last; have the clamp and the next mold ready."),
        Cure("Pour by hand in one thread that never breaks."),
    ),
    no_number="No calculation knows your hand. Count how long the plunger stood.",
)

FOLD = Defect(
    "fold",
    "Fold line or seam",
    "A line across the body where it parts when stretched.",
    (
        Ask(
            "same",
            "Where is it?",
            (
                Option("Always the same place", ("dead_end",), ("paused",)),
                Option("Now here, now there", ("paused", "stopped"), ("dead_end",)),
            ),
        ),
        Ask(
            "push",
            "Did the push stop on the way?",
            (Option("Yes, or I let go", ("paused",)), Option("No", ("stopped",), ("paused",))),
        ),
    ),
    (STOPPED, PAUSED, DEAD_END),
    counted=("other",),
    caution=BURNS,
)
