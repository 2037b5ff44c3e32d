"""A tip that is rounded and shiny, always in the same place."""

from __future__ import annotations

from pourwright.plan.caution import PRESSURE
from pourwright.plan.defect.common import AIR, DEAD_END, STOPPED
from pourwright.plan.defect.defect import Ask, Defect, Option

TIP = Defect(
    "tip",
    "Tip rounded and shiny",
    "A tip is a little short, smooth as glass, always the same one.",
    (
        Ask(
            "same",
            "Is it the same place every time?",
            (
                Option("Always", ("air", "dead_end"), ("stopped",)),
                Option("Now here, now there", ("stopped",), ("air", "dead_end")),
            ),
        ),
        Ask(
            "slow",
            "Does a slower end of the push help?",
            (
                Option("Yes", ("air",), ("stopped",)),
                Option("No, it gets worse", ("stopped",), ("air",)),
            ),
        ),
    ),
    (AIR, DEAD_END, STOPPED),
    counted=("short",),
    caution=PRESSURE,
)
