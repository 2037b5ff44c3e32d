"""It sinks or floats the wrong way."""

from __future__ import annotations

from pourwright.plan.caution import BURNS
from pourwright.plan.defect.defect import Ask, Cause, Cure, Defect, Option
from pourwright.plan.defect.trial import Trial

DENSITY = Cause(
    "density",
    "Its weight and volume make it so",
    "Plain plastic is a little heavier than fresh water; salt sinks it, hollow glass floats it.",
    (
        Cure("Change salt or hollow glass by what the calculation says; weigh one in water."),
        Cure("Powders bone dry and weighed under extraction; glass dust is not for lungs."),
    ),
    Trial.SINK,
)

HIDDEN_AIR = Cause(
    "hidden_air",
    "Air or water is hidden in it",
    "Bubbles inside make it float; a slit or tube that holds air or water changes it for a while.",
    (
        Cure("Cut one and look. Squeeze it under water until no bubble comes."),
        Cure("Dry what was weighed in water before it goes back to a pot: water turns to steam."),
    ),
    no_number="What is hidden shows on the scale: weigh it in air and hanging in water.",
)

LEACHED = Cause(
    "leached",
    "Salt has washed out",
    "A salted bait grows lighter with every hour in the water.",
    (Cure("Judge a fresh one. Finer salt stays longer."),),
    no_number="How fast salt leaves a bait was not measured by anybody: no number.",
)

SINKING = Defect(
    "sinking",
    "Sinks or floats wrong",
    "It should sink and floats, or the other way around.",
    (
        Ask(
            "does",
            "What does it do?",
            (
                Option("It floats and should sink", ("hidden_air",), tells={"floats": 1.0}),
                Option("It sinks and should float", against=("leached",), tells={"floats": 0.0}),
            ),
        ),
        Ask(
            "when",
            "Since when?",
            (
                Option("From the first cast", ("density", "hidden_air"), ("leached",)),
                Option("After hours in the water", ("leached",), ("density",)),
            ),
        ),
    ),
    (DENSITY, HIDDEN_AIR, LEACHED),
    caution=BURNS,
)
