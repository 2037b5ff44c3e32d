"""A dent, or a hollow side."""

from __future__ import annotations

from pourwright.plan.caution import BURNS
from pourwright.plan.defect.common import OPENED_SOON, WAITED
from pourwright.plan.defect.defect import Ask, Cause, Cure, Defect, Option
from pourwright.plan.defect.trial import Trial

LET_GO = Cause(
    "let_go",
    "The thick place shrank after the gate had shut",
    "Hot plastic shrinks as it sets; once the gate has set, nothing follows.",
    (
        Cure("Keep a light steady push on until the gate has set, no harder than the shot."),
        Cure("Leave a full sprue on top, and top it up while it sinks."),
        Cure("A fatter gate feeds longer; a little cooler plastic shrinks less."),
    ),
    Trial.HOLD,
)

DENT = Defect(
    "dent",
    "Dent or hollow side",
    "The thick place has sunk in; the outline is right.",
    (
        Ask(
            "held",
            "How long did you keep pushing once it was full?",
            (
                Option("Let go at once", ("let_go",), tells={"held_s": 1.0}),
                Option("About five seconds", tells={"held_s": 5.0}),
                Option("About fifteen seconds", tells={"held_s": 15.0}),
                Option("Half a minute or more", against=("let_go",), tells={"held_s": 30.0}),
            ),
        ),
        WAITED,
    ),
    (LET_GO, OPENED_SOON),
    counted=("dent",),
    caution=BURNS,
)
