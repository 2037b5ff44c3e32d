"""Yellow or brown, or a sharp smell."""

from __future__ import annotations

from pourwright.plan.caution import FUMES
from pourwright.plan.defect.common import DISCARD
from pourwright.plan.defect.defect import Ask, Cause, Cure, Defect, Option
from pourwright.plan.defect.trial import Trial

SCORCHED = Cause(
    "scorched",
    "Its heat budget is used up",
    "Every minute hot uses stabilizer, remelt brings its own past along, and then it yellows.",
    (
        Cure(DISCARD),
        Cure("Next cup: fewer heats, shorter bursts, no long stand hot, less remelt."),
        Cure("Fresh stabilizer goes into fresh plastic; it repairs nothing."),
    ),
    Trial.SCORCH,
)

HOT_SPOT = Cause(
    "hot_spot",
    "One place of the cup was far hotter than the reading",
    "The oven heats the core first; a reading of the skin misses it.",
    (
        Cure("Shorter bursts, stir to the bottom after each, read while stirring."),
        Cure(DISCARD),
    ),
    no_number="The reading says nothing of a spot. Look inside a cup like yours instead.",
)

READS_LOW = Cause(
    "reads_low",
    "The thermometer reads low",
    "A gun held aslant, far off or over steam reads too cold, and the cup is heated too far.",
    (
        Cure("Check a probe in boiling water and dry it; a gun against the probe while you stir."),
        Cure(DISCARD),
    ),
    no_number="Only the check of the thermometer tells. Its page asks for two readings.",
)

YELLOW = Defect(
    "yellow",
    "Yellow, brown or a sharp smell",
    "Clear or white plastic has turned, or it bites the nose.",
    (
        Ask(
            "where",
            "Where is it yellow?",
            (
                Option("All through", ("scorched", "reads_low"), ("hot_spot",)),
                Option("Streaks or one lump", ("hot_spot",), ("scorched",)),
            ),
        ),
        Ask(
            "past",
            "How often was it heated?",
            (
                Option("Once, all fresh", ("hot_spot", "reads_low"), ("scorched",)),
                Option("With remelt, or rewarmed often", ("scorched",)),
            ),
        ),
    ),
    (SCORCHED, HOT_SPOT, READS_LOW),
    counted=("other",),
    caution=FUMES,
)
