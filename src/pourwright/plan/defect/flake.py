"""Flake at the bottom, or on one side."""

from __future__ import annotations

from pourwright.plan.caution import BURNS
from pourwright.plan.defect.defect import Ask, Cause, Cure, Defect, Option
from pourwright.plan.defect.trial import Trial

SANK = Cause(
    "sank",
    "Flake sinks in the standing cup",
    "Metal film is heavier than plastic, and a hot cup is thin.",
    (
        Cure("Stir from the bottom up before every load."),
        Cure("Take finer flake; do not heat for it: hot plastic is thinner, so it sinks faster."),
    ),
    Trial.FLAKE,
)

BADLY_STIRRED = Cause(
    "badly_stirred",
    "It was never stirred in",
    "Flake on top of hot plastic clumps and stays where it fell.",
    (Cure("Sprinkle it in while you stir, bone dry, and stir until no clump is left."),),
    no_number="No calculation knows how you stir. Look through the cup against the light.",
)

FLAKE = Defect(
    "flake",
    "Flake at the bottom or on one side",
    "One side is full of flake, the other nearly clear.",
    (
        Ask(
            "stood",
            "How long did the cup stand unstirred?",
            (
                Option("A quarter minute", against=("sank",), tells={"still_s": 15.0}),
                Option("A minute or two", tells={"still_s": 90.0}),
                Option("Five minutes", ("sank",), tells={"still_s": 300.0}),
            ),
        ),
        Ask(
            "which",
            "Which baits?",
            (
                Option("The last of a cup have more", ("sank",)),
                Option("Clumps in any of them", ("badly_stirred",), ("sank",)),
                Option("All, on the lower side", ("sank",)),
            ),
        ),
    ),
    (SANK, BADLY_STIRRED),
    counted=("other",),
    caution=BURNS,
)
