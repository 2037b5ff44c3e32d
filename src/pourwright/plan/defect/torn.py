"""Torn when the mold was opened."""

from __future__ import annotations

from pourwright.plan.caution import BURNS
from pourwright.plan.defect.common import OPENED_SOON, UNDERCOOKED, WAITED
from pourwright.plan.defect.defect import Ask, Cause, Cure, Defect, Option

STUCK = Cause(
    "stuck",
    "It sticks or is hooked in the mold",
    "A rough or undercut cavity, or flash around a pin, holds the bait back.",
    (
        Cure("Pull along the bait, tail last, not straight up."),
        Cure("Polish the place, break its sharp edge; a breath of mold release, no more."),
    ),
    no_number="The measures of the bait note an undercut; how much it holds has no number.",
)

TORN = Defect(
    "torn",
    "Torn when opened",
    "A leg or tail stayed in the mold.",
    (
        WAITED,
        Ask(
            "same",
            "Where does it tear?",
            (
                Option("Always the same place", ("stuck",), ("undercooked",)),
                Option("Anywhere, like cheese", ("undercooked",), ("stuck",)),
                Option("It stretches in the thick of it", ("opened_soon",)),
            ),
        ),
    ),
    (OPENED_SOON, UNDERCOOKED, STUCK),
    counted=("torn",),
    caution=BURNS,
)
