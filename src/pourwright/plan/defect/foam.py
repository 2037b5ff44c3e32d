"""Pinholes, spatter or foam."""

from __future__ import annotations

from pourwright.plan.caution import BURNS, FUMES
from pourwright.plan.defect.bubbles import DAMP
from pourwright.plan.defect.common import DISCARD
from pourwright.plan.defect.defect import Ask, Cause, Cure, Defect, Option
from pourwright.plan.defect.trial import Trial

SMOKED = Cause(
    "smoked",
    "It was overheated and gives off gas",
    "Past its heat budget the plastic breaks down, smokes and foams.",
    (
        Cure("Oven off, extraction on, leave it until it is cold."),
        Cure(DISCARD),
        Cure("Next cup: shorter bursts, a stir after each, the same reading as a good one."),
    ),
    Trial.SCORCH,
)

FOAM = Defect(
    "foam",
    "Pinholes, spatter or foam",
    "It crackles or foams in the cup, or the skin is full of pinholes.",
    (
        Ask(
            "since",
            "Since when?",
            (
                Option("Since a new bag of salt or flake, or a damp day", ("damp",), ("smoked",)),
                Option("Since a wash of cup or mold", ("damp",), ("smoked",)),
                Option("Near the end of the heating", ("smoked",), ("damp",)),
            ),
        ),
        Ask(
            "smell",
            "Does it smoke or smell sharp?",
            (Option("Yes", ("smoked",), ("damp",)), Option("No", ("damp",), ("smoked",))),
        ),
    ),
    (DAMP, SMOKED),
    counted=("bubble",),
    caution=f"Water flashes to steam and throws hot plastic. {FUMES} {BURNS}",
)
