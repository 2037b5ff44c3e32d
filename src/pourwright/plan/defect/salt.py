"""Salt at the bottom."""

from __future__ import annotations

from pourwright.plan.caution import BURNS
from pourwright.plan.defect.common import SALT_SANK
from pourwright.plan.defect.defect import Ask, Cause, Cure, Defect, Option

COARSE = Cause(
    "coarse",
    "Coarse or clumped salt",
    "Damp salt clumps, and a clump sinks as one heavy grain.",
    (Cure("Dry it, sieve it, then stir it into the cold plastic."),),
    no_number="Measure a grain under a ruler: the calculation of sinking takes its size.",
)

SALT = Defect(
    "salt",
    "Salt at the bottom",
    "Grit on one side, or a cup whose last shots are heavy.",
    (
        Ask(
            "stood",
            "How long did the cup stand unstirred?",
            (
                Option("A quarter minute", against=("salt_sank",), tells={"still_s": 15.0}),
                Option("A minute or two", tells={"still_s": 90.0}),
                Option("Five minutes", ("salt_sank",), tells={"still_s": 300.0}),
            ),
        ),
        Ask(
            "grain",
            "How fine is it?",
            (
                Option("Like flour", against=("coarse",), tells={"grain_mm": 0.05}),
                Option("Like fine table salt", tells={"grain_mm": 0.2}),
                Option("Coarser, or in clumps", ("coarse",), tells={"grain_mm": 0.5}),
            ),
        ),
    ),
    (SALT_SANK, COARSE),
    counted=("other",),
    caution=BURNS,
)
