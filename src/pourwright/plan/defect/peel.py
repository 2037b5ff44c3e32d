"""Layers of a bait peel apart."""

from __future__ import annotations

from pourwright.plan.caution import BURNS
from pourwright.plan.defect.defect import Ask, Cause, Cure, Defect, Option
from pourwright.plan.defect.trial import Trial

MET_COLD = Cause(
    "met_cold",
    "The layers met too cold to weld",
    "The face of the first layer cools within seconds; the second only wets it.",
    (
        Cure("Shoot both at once, or the second before the first cools: read its face, no finger."),
        Cure(
            "Make the second layer a step hotter:",
            hotter=True,
            instead="Wait less between the layers instead, and warm the mold, dry.",
        ),
    ),
    Trial.JOIN,
)

OILY = Cause(
    "oily",
    "Oil, release or sweat between the layers",
    "A film keeps the second layer off the first.",
    (Cure("No mold release and no scent before the second layer; wipe the face dry."),),
    no_number="A film has no number. Pull a pair apart: a slick face tells.",
)

PEEL = Defect(
    "peel",
    "Layers peel apart",
    "Back and belly, or a vein, come off when bent.",
    (
        Ask(
            "gap",
            "How long from the first layer to the second?",
            (
                Option("Shot together", ("oily",), ("met_cold",), {"apart_s": 0.0}),
                Option("Some seconds", ("met_cold",), tells={"apart_s": 10.0}),
                Option("A minute or more", ("met_cold",), ("oily",), {"apart_s": 60.0}),
            ),
        ),
        Ask(
            "face",
            "What does the face look like where it came apart?",
            (
                Option("Smooth and dry", ("met_cold",), ("oily",)),
                Option("Slick or oily", ("oily",)),
                Option("Torn plastic", (), ("met_cold", "oily")),
            ),
        ),
    ),
    (MET_COLD, OILY),
    counted=("other",),
    caution=BURNS,
)
