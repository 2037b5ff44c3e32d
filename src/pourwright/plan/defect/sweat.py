"""An oily sweat on the bait."""

from __future__ import annotations

from pourwright.plan.caution import BURNS
from pourwright.plan.defect.common import UNDERCOOKED
from pourwright.plan.defect.defect import Ask, Cause, Cure, Defect, Option

TOO_MUCH = Cause(
    "too_much",
    "More softener than the plastic holds",
    "What the resin does not hold comes out, first in the cold.",
    (
        Cure("Less softener, or a softer grade instead of much softener."),
        Cure("Lay one on paper for a day: a ring tells, and a scale says how much."),
    ),
    no_number="How much a resin holds depends on both; only a weighed bait on paper tells.",
)

WRONG_OIL = Cause(
    "wrong_oil",
    "A softener or scent that does not go with it",
    "Oils that are no plasticizer for vinyl are pushed out.",
    (Cure("Use the softener that goes with the plastic, and scent in the bag, not in the cup."),),
    no_number="No number: the data sheets say what goes together, or a small puck tells.",
)

SWEAT = Defect(
    "sweat",
    "Oily sweat",
    "Drops or a slick film come out after days.",
    (
        Ask(
            "when",
            "When does it come?",
            (
                Option("After a cold night, gone when warm", ("too_much",), ("undercooked",)),
                Option("From the first day on", ("undercooked", "wrong_oil")),
            ),
        ),
        Ask(
            "since",
            "What changed?",
            (
                Option("More softener than before", ("too_much",)),
                Option("A new softener, scent or oil", ("wrong_oil",)),
                Option("Nothing", ("undercooked",), ("wrong_oil",)),
            ),
        ),
    ),
    (TOO_MUCH, WRONG_OIL, UNDERCOOKED),
    caution=BURNS,
)
