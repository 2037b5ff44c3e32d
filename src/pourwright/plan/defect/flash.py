"""A thin skin around the edge of the bait."""

from __future__ import annotations

from pourwright.plan.caution import PRESSURE
from pourwright.plan.defect.common import GAP, LIFTED
from pourwright.plan.defect.defect import Ask, Cause, Cure, Defect, Option

MOVED = Cause(
    "moved",
    "The halves shift against each other",
    "Worn pins or holes let one half slide, and the two outlines no longer match.",
    (
        Cure("Rock the closed, empty mold: if it clicks, renew pins or holes."),
        Cure("Clamp straight down, not from one side."),
    ),
    no_number="No calculation knows the play of your pins. Feel it, or measure the step on a bait.",
)

FLASH = Defect(
    "flash",
    "Thin skin around the edge",
    "A fin of plastic where the two halves of the mold meet.",
    (
        Ask(
            "where",
            "Where is it?",
            (
                Option("All the way around", ("lifted",)),
                Option("In one place, every time the same", ("gap",), ("lifted",)),
                Option("A step on one side rather than a skin", ("moved",)),
            ),
        ),
        Ask(
            "when",
            "On which shots?",
            (
                Option("Those pushed hard or held long", ("lifted",), ("moved",)),
                Option("All, since the mold was last cleaned or dropped", ("gap",)),
                Option("All, from its first day on", ("gap", "moved")),
            ),
        ),
    ),
    (LIFTED, GAP, MOVED),
    counted=("flash",),
    caution=PRESSURE,
)
