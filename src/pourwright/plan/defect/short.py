"""Tail or legs are missing."""

from __future__ import annotations

from pourwright.plan.caution import PRESSURE
from pourwright.plan.defect.common import AIR, COLD_START, STOPPED
from pourwright.plan.defect.defect import Ask, Cause, Cure, Defect, Option
from pourwright.plan.defect.trial import Trial

COOLED = Cause(
    "cooled",
    "The plastic cooled in cup or injector",
    "A cold barrel takes the heat out of a load within a minute.",
    (
        Cure("Draw hot plastic, give it back to the cup, draw again and shoot at once."),
        Cure(
            "Rewarm the cup to the same reading as before, no hotter.",
            reheats=True,
            instead="Heat less plastic at once, and shoot it without a break.",
        ),
    ),
    Trial.WINDOW,
)

SHORT = Defect(
    "short",
    "Tail or legs missing",
    "The bait ends early, with a rounded or ragged end.",
    (
        Ask(
            "when",
            "On which shots?",
            (
                Option("Only the first of the day", ("cold_start",), ("air", "cooled")),
                Option(
                    "Those of a load that took half a minute or more",
                    ("cooled",),
                    ("cold_start",),
                    {"load_s": 40.0},
                ),
                Option(
                    "Any, even right after a draw",
                    ("stopped",),
                    ("cold_start", "cooled"),
                    {"load_s": 6.0},
                ),
            ),
        ),
        Ask(
            "end",
            "What does the end look like?",
            (
                Option("Rounded and shiny, always the same place", ("air",), ("cooled",)),
                Option("Dull, wrinkled or ragged", ("stopped", "cooled"), ("air",)),
            ),
        ),
    ),
    (STOPPED, COLD_START, COOLED, AIR),
    counted=("short",),
    caution=PRESSURE,
)
