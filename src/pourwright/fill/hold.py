"""How long to keep pushing, and what sinks in afterwards."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Draws
from pourwright.base.errors import NoAnswer
from pourwright.base.field import number, out, parts, pick, unmeasured
from pourwright.base.record import Record
from pourwright.base.source import estimate, published
from pourwright.base.units import in_both
from pourwright.fill.change import WARMER_MOLD_K, WARMEST_MOLD_C
from pourwright.fill.fill_words import WEARING
from pourwright.fill.gate import Gate
from pourwright.fill.held import LONGEST_S, Held, Standing, held
from pourwright.matter.flow import EXPANSION_PER_K
from pourwright.matter.mold_material import MOLD_C, MoldMaterial
from pourwright.matter.setting import SETS_C
from pourwright.physics.conduction import Solid

GATE_MM, COOLER_K, COOLEST_C = 2.0, 10.0, 155.0
# A dent that a maker would see on a bait: estimate.
SEEN_MM = 0.2


class BodyShape(StrEnum):
    """How the thickest place cools."""

    ROUND = "round"
    FLAT = "flat"


@dataclass(frozen=True, slots=True, kw_only=True)
class HoldInput(Record):
    """Gates, the thickest place behind them, and the temperatures."""

    gates: tuple[Gate, ...] = parts("Gates; where they differ, each of them", least=1, most=20)
    thickest_mm: float = number("Thickest place of the bait", low=1, high=80)
    shape: BodyShape = pick("Round as a rod or flat as a slab", default=BodyShape.ROUND)
    melt_c: float = number("Plastic when the mold is full", low=100, high=220, default=165)
    mold_c: float | None = unmeasured(
        "Mold", low=0, high=150, typical=MOLD_C.ends,
        measure=MOLD_C.measure,
    )  # fmt: skip
    material: MoldMaterial = pick("Mold made of", default=MoldMaterial.ALUMINUM)
    room_c: float = number("Room in which the bait ends up", low=-10, high=45, default=22)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)


@dataclass(frozen=True, slots=True)
class SinkHelp:
    """One thing done otherwise."""

    change: str = out("What is changed")
    hold_s: float = out("Seconds to keep pushing then, typical")
    dent_mm: float = out("Dent then, typical")


@dataclass(frozen=True, slots=True)
class HoldAnswer:
    """Seconds to push, and what sinks in after that."""

    hold_s: Band = out(
        "Keep pushing so long after the mold is full: until the last gate or the bait has set"
    )
    first_shut_s: Band = out("When the first gate is shut")
    last_shut_s: Band = out("When the last gate is shut; the same where gates are alike")
    body_sets_s: Band = out("When the middle of the thickest place sets")
    body_mean_c: Band = out("Mean of the thickest place when the push may end")
    still_soft_share: Band = out("Share of the thickest place that still flows then, 0 to 1")
    shrink_share: Band = out("Volume the thickest place loses from then to the room, 0 to 1")
    sink_share: Band = out("Of its volume, what its set shell does not follow, 0 to 1")
    dent_mm: Band = out("Depth of the dent, were all that one groove")
    helps: tuple[SinkHelp, ...] = out("One thing changed at a time, the smallest dent first")
    notes: tuple[str, ...] = out("What dominates, what would narrow it, cautions")


@calculation(
    "fill.hold",
    purpose="how long to keep pushing, and what sinks in afterwards",
    sources=(
        published("Incropera and DeWitt, 6th ed., sec. 5.5, 5.6 and eq. 5.63: exact series"),
        published("Carslaw and Jaeger, 2nd ed., sec. 1.15: a bar as the product of two slabs"),
        SETS_C.source,
        estimate(f"volume {EXPANSION_PER_K:g} per K"),
        estimate("the dent as one groove half as wide as the bait"),
    ),
    example={"gates": [{"thick_mm": 4}], "thickest_mm": 13, "melt_c": 165, "mold_c": 30},
)
def fill_hold(inputs: HoldInput) -> HoldAnswer:
    """Until the middle of the last gate sets; what shrinks after that can only sink in.

    Faces are held at the touch of plastic and mold. At the moment the gate shuts, the set shell
    of the body and what still flows inside it each have a mean temperature; the inside shrinks
    more by their difference, and that much sinks in. The rest shrinks evenly.
    Raises: NoAnswer where a typical gate never sets in so warm a mold.
    """
    draws = Draws(seed=inputs.seed)
    standing = _standing(draws, inputs)
    done = held(standing)
    shrink = done.shrink_share(inputs.room_c)
    return HoldAnswer(
        hold_s=draws.band(done.hold_s),
        first_shut_s=draws.band(done.first_s),
        last_shut_s=draws.band(done.last_s),
        body_sets_s=draws.band(done.body_sets_s),
        body_mean_c=draws.band(done.mean_c),
        still_soft_share=draws.band(done.soft_share),
        shrink_share=draws.band(shrink),
        sink_share=draws.band(done.sink_share),
        dent_mm=draws.band(done.dent_mm),
        helps=_helps(standing),
        notes=(
            *left_out(inputs),
            *width_notes(draws, {"hold_s": done.hold_s, "dent_mm": done.dent_mm}),
            *_words(done),
        ),
    )


def _standing(draws: Draws, inputs: HoldInput) -> Standing:
    return Standing(
        draws=draws,
        gates=inputs.gates,
        thickest_mm=inputs.thickest_mm,
        solid=Solid.SLAB if inputs.shape is BodyShape.FLAT else Solid.CYLINDER,
        melt_c=draws.known(inputs.melt_c),
        mold_c=drawn(draws, inputs)["mold_c"],
        material=inputs.material,
    )


def _helps(now: Standing) -> tuple[SinkHelp, ...]:
    told = []
    for change, standing in _changes(now):
        try:
            done = held(standing)
        except NoAnswer:
            continue
        told.append(SinkHelp(change, float(done.hold_s[0]), float(done.dent_mm[0])))
    return tuple(sorted(told, key=lambda h: h.dent_mm))


def _changes(now: Standing) -> Iterable[tuple[str, Standing]]:
    larger = f"gates {GATE_MM:g} mm larger both ways"
    yield larger, replace(now, gate_larger_mm=GATE_MM)
    cooler = max(float(now.melt_c[0]) - COOLER_K, COOLEST_C)
    if cooler < now.melt_c[0]:
        how = f"plastic at {in_both(cooler)}: mind the odds of a full shot"
        yield how, replace(now, melt_c=now.draws.known(cooler))
    warmer = min(float(now.mold_c[0]) + WARMER_MOLD_K, WARMEST_MOLD_C)
    if warmer > now.mold_c[0]:
        mold_c = np.asarray(now.mold_c + warmer - now.mold_c[0])
        yield f"mold at {in_both(warmer)}, warmed dry, heat gloves on", replace(now, mold_c=mold_c)


def _words(done: Held) -> Iterable[str]:
    if done.dent_mm[0] >= SEEN_MM:
        yield (
            "The gate shuts before the body is set, so some of the shrink sinks in: a fatter gate, "
            "a full sprue left on top, or topping up while it is open feed it longer."
        )
    late = float(np.mean(done.hold_s[1:] >= LONGEST_S))
    if late > 0:
        yield f"In {late:.0%} of the cases the gate stays open half an hour, which stands in."
    yield (
        "Hold with a light steady push, no harder than the shot: a full mold passes all of it on "
        "to the clamps."
    )
    yield WEARING
