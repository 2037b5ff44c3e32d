"""Bubbles inside the bait."""

from __future__ import annotations

from pourwright.plan.caution import BURNS
from pourwright.plan.defect.defect import Ask, Cause, Cure, Defect, Option
from pourwright.plan.defect.trial import Trial

STIRRED_IN = Cause(
    "stirred_in",
    "Air was stirred into the raw plastic",
    "Small bubbles rise slowly, and the hot plastic locks in what is left.",
    (
        Cure("Mix slowly, pour down the side of the cup, let it stand before the first burst."),
        Cure(
            "A vacuum takes raw, cold plastic only, never hot, in a chamber made and rated for "
            "it, behind a guard, the cup a third full."
        ),
    ),
    Trial.BUBBLES,
)

DRAWN_IN = Cause(
    "drawn_in",
    "The injector drew air",
    "A nose that leaves the plastic, or worn rings, draw air that goes out with the shot.",
    (
        Cure("Keep the nose under, draw slowly, give the first push back to the cup, nose down."),
        Cure("Lubricate the rings, and renew them when they leak."),
    ),
    no_number="No calculation knows how your rings seal. Try it cold, nose on a gloved finger.",
)

DAMP = Cause(
    "damp",
    "Something was damp",
    "Water in salt, flake, a cup or a mold turns to steam.",
    (Cure("Dry first, then heat: salt and flake in a warm oven of their own, mold and cup too."),),
    Trial.STEAM,
)

BUBBLES = Defect(
    "bubbles",
    "Bubbles inside",
    "Round holes in the body, seen against the light or when cut.",
    (
        Ask(
            "stood",
            "How long did the raw cup stand after stirring?",
            (
                Option("It was heated at once", ("stirred_in",), tells={"stood_min": 1.0}),
                Option("Some ten minutes", tells={"stood_min": 10.0}),
                Option("An hour or longer", against=("stirred_in",), tells={"stood_min": 60.0}),
            ),
        ),
        Ask(
            "came",
            "When did they come?",
            (
                Option("The raw cup was frothy already", ("stirred_in",), ("drawn_in",)),
                Option("While it was heated", ("damp",), ("drawn_in",)),
                Option("Only in shots, the cup is clear", ("drawn_in",), ("stirred_in", "damp")),
            ),
        ),
    ),
    (STIRRED_IN, DAMP, DRAWN_IN),
    counted=("bubble",),
    caution=BURNS,
)
