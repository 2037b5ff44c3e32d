"""Causes and cures that several defects share. Common practice, no source."""

from __future__ import annotations

from pourwright.plan.defect.defect import Ask, Cause, Cure, Option
from pourwright.plan.defect.trial import Trial

DISCARD = "Yellowed or sharp-smelling plastic is discarded, never reheated or blended in."

UNDERCOOKED = Cause(
    "undercooked",
    "It was never cooked through",
    "Plastic that did not stay near its fusing temperature long enough, or was cold in the middle "
    "of the cup, stays weak, cloudy and tacky.",
    (
        Cure("Stir to the bottom after every burst, rest, then read while stirring."),
        Cure(
            "Heat the next cup a step further:",
            hotter=True,
            instead="Make the cup smaller and stir oftener, so that no part of it stays cold.",
        ),
        Cure("Before you pour, cool a drip on a spoon: pulled, it must snap back."),
    ),
    Trial.FUSED,
)

STOPPED = Cause(
    "stopped",
    "The plastic set before the mold was full",
    "It cools on its way through sprue, gate and thin places, and the push is no longer enough.",
    (
        Cure("Push in one steady go, without a stop."),
        Cure("Warm the mold and prime the injector with hot plastic, both dry."),
        Cure(
            "Pour a step hotter:",
            hotter=True,
            instead="Warm mold and injector instead, open the gate, or plug a cavity.",
        ),
        Cure("Open the gate by 0.5 mm / 0.02 in, or plug one cavity. More push needs more clamp."),
    ),
    Trial.FULL,
)

COLD_START = Cause(
    "cold_start",
    "The mold was still cold",
    "The first shots of a day go into a mold as cold as the room.",
    (
        Cure("Count the first shots as warm-up shots and put them back while they are clean."),
        Cure("Warm the mold before you start: dry, and no warmer than a hand can bear."),
    ),
    Trial.COLD_MOLD,
)

AIR = Cause(
    "air",
    "Air could not get out there",
    "Air is pressed into the last corner and holds the plastic off; the skin there stays smooth.",
    (
        Cure("Scratch a vent of 0.05 to 0.1 mm / 0.002 to 0.004 in outward from that tip."),
        Cure("Ease off over the last of the push, so that the air has time."),
    ),
    Trial.AIR,
)

DEAD_END = Cause(
    "dead_end",
    "It fills last there, at a dead end",
    "The front closes such a place off after all around it; air and cold plastic end up in it.",
    (
        Cure("Vent that very place: the filling map shows where it is."),
        Cure("Move the gate, so that the place is passed earlier."),
    ),
    Trial.ENDS,
)

LIFTED = Cause(
    "lifted",
    "The push lifts the halves",
    "The last push, when nothing moves any more, spreads over the whole shadow of the cavities.",
    (
        Cure("More clamps, over the cavities, not at the corners."),
        Cure("Ease off as the mold fills. A smaller bore needs more clamp still."),
    ),
    Trial.CLAMP,
)

GAP = Cause(
    "gap",
    "The halves do not meet",
    "Dirt, old flash, a proud pin or a warped half leave a gap, and plastic creeps in until it "
    "sets. Cooler plastic hardly helps.",
    (
        Cure("Clean both faces, look for old flash around pins and bolts."),
        Cure("Lay both halves on glass: a half that rocks is warped, rub it flat on fine paper."),
        Cure("Try a slip of paper (0.1 mm / 0.004 in) all round the clamped mold."),
    ),
    Trial.GAP,
)

SALT_SANK = Cause(
    "salt_sank",
    "Salt sinks in the standing cup",
    "Grains sink while nobody stirs; the first shots come out light, the last ones heavy.",
    (
        Cure("Stir from the bottom up before every load."),
        Cure("Take finer salt, bone dry."),
    ),
    Trial.SALT,
)

OPENED_SOON = Cause(
    "opened_soon",
    "It left the mold while its middle was still soft",
    "The skin is firm long before the thickest place is; what is soft bends, tears and sinks in.",
    (
        Cure("Wait as long as said here before you open; warm molds take longer, shot by shot."),
        Cure("Lay it straight in cool water; dry it before any of it goes back to a pot."),
    ),
    Trial.OPEN,
)

WRONG_BLEND = Cause(
    "wrong_blend",
    "The blend itself is that soft or hard",
    "Grades and softener decide the hardness; a few grams to 100 g are felt.",
    (
        Cure("Weigh softener and hardener; a spoon is off by a fifth."),
        Cure("Change the share by what the calculation says, and pour a puck first."),
    ),
    Trial.SOFTNESS,
)

UNSHAKEN = Cause(
    "unshaken",
    "The jug was not mixed to the bottom",
    "Resin settles: the top of a jug pours soft, its bottom hard.",
    (Cure("Turn and stir the jug until nothing sticks to its bottom, then let it rise clear."),),
    no_number="No calculation knows how far a jug has settled. Pour a puck from top and bottom.",
)

WAITED = Ask(
    "waited",
    "How long after the shot was the mold opened?",
    (
        Option("Within half a minute", ("opened_soon",), tells={"waited_s": 25.0}),
        Option("About a minute", tells={"waited_s": 60.0}),
        Option("About two minutes", tells={"waited_s": 120.0}),
        Option("Five minutes or more", against=("opened_soon",), tells={"waited_s": 300.0}),
    ),
)
