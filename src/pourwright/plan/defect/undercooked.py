"""Cloudy, tacky or crumbly."""

from __future__ import annotations

from pourwright.plan.caution import BURNS
from pourwright.plan.defect.common import UNDERCOOKED, UNSHAKEN, WRONG_BLEND
from pourwright.plan.defect.defect import Ask, Defect, Option

COOKED = Defect(
    "undercooked",
    "Cloudy, tacky or crumbly",
    "It tears like cheese, sticks to the fingers, or clear plastic is milky.",
    (
        Ask(
            "snap",
            "Stretch a strip: does it snap back?",
            (
                Option("It tears or crumbles", ("undercooked",), ("wrong_blend",)),
                Option("It snaps back but is sticky", ("wrong_blend",), ("undercooked",)),
            ),
        ),
        Ask(
            "where",
            "Which baits?",
            (
                Option("All of a cup", ("undercooked", "wrong_blend")),
                Option("All since a new jug was opened", ("unshaken",)),
                Option("Some, or one end", ("undercooked",), ("wrong_blend",)),
            ),
        ),
    ),
    (UNDERCOOKED, WRONG_BLEND, UNSHAKEN),
    counted=("other", "torn"),
    caution=BURNS,
)
