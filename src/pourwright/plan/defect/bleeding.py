"""Color runs into what lies beside it."""

from __future__ import annotations

from pourwright.plan.defect.defect import Ask, Cause, Cure, Defect, Option

_NOTHING = "Nothing published says how fast it wanders between baits, so there is no number."

DYE = Cause(
    "dye",
    "The color is a dye, not a pigment",
    "Dyes dissolve in the plasticizer and wander with it, through contact and over weeks.",
    (
        Cure("Use pigment for what must stay: a bleeding color is marked so on the shelf."),
        Cure("Bag each color by itself."),
    ),
    no_number=_NOTHING,
)

STORED = Cause(
    "stored",
    "Colors lay together, warm or oily",
    "Contact, warmth and bag oil carry color across.",
    (Cure("Keep colors apart, cool, with little oil."), Cure("Dark next to white never.")),
    no_number=_NOTHING,
)

BLEEDING = Defect(
    "bleeding",
    "Color bleeding",
    "A color has wandered into the layer or the bait beside it.",
    (
        Ask(
            "where",
            "Where did it go?",
            (
                Option("From layer to layer in one bait", ("dye",), ("stored",)),
                Option("From bait to bait in the bag", ("stored", "dye")),
            ),
        ),
        Ask(
            "color",
            "Which color?",
            (
                Option("A bright clear or glowing one", ("dye",)),
                Option("A dense, covering one", ("stored",), ("dye",)),
            ),
        ),
    ),
    (DYE, STORED),
)
