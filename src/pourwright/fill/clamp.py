"""Clamp needed, clamp at hand, and flash."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.field import kind, number, out, unmeasured
from pourwright.base.source import PRACTICE, published
from pourwright.base.units import convert
from pourwright.fill.clamp_kinds import BOLT_SOURCE, CLAMPS, TOGGLE_SOURCE, Clamp, Grip, grip
from pourwright.fill.flash import FLASH_SOURCE, SEEN_MM
from pourwright.fill.push import ONE_HAND_N
from pourwright.fill.squeezed import SqueezedInput, left_out_words, melt_words, squeeze

# Below these odds that the halves lift, the clamps are enough; estimate.
_SAFE_ODDS = 0.05
_MOST_MORE = 40
CAUTION = (
    "Hot plastic under push comes out of the parting line as a jet: keep hands, face and others "
    "out of line with it, wear a face shield, long sleeves and gloves, let the push go slack and "
    "the sprue set before you loosen a clamp."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ClampInput(SqueezedInput):
    """A push on a mold, and what holds the mold shut."""

    shadow_cm2: float = number(
        "Area of all cavities and their feed, seen along the pull of the mold", low=0.5, high=5000
    )
    clamps: tuple[Clamp, ...] = kind("Clamps at hand", CLAMPS, default=())
    gap_mm: float | None = unmeasured(
        "Gap between the closed halves", low=0.001, high=2, typical=(0.02, 0.05, 0.1),
        label="gap between the halves", measure="try feeler gauges, or slips of paper (0.1 mm)",
        logarithmic=True,
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class ClampAnswer:
    """Whether the halves stay shut, and what creeps between them."""

    pressure_kpa: Band = out("Pressure in the full mold")
    needed_n: Band = out("Force that pushes the halves apart")
    had_n: Band = out("Force of the clamps at hand")
    had_ratio: Band = out("Force had against force needed; below 1 the halves lift")
    lift_share: float = out("Odds that the halves lift, 0 to 1")
    push_held_n: Band = out("Hardest push that these clamps hold")
    flash_mm: Band = out("How far flash creeps into the gap while the halves stay shut")
    visible_gap_mm: Band = out("Gap from which flash shows, half a millimeter long")
    advice: tuple[str, ...] = out("What to do, first things first")
    notes: tuple[str, ...] = out("What dominates, what would narrow it, cautions")


@calculation(
    "fill.clamp",
    purpose="clamp needed, flash risk",
    sources=(
        published("Pascal: the same pressure on all of the shadow once the mold is full"),
        ONE_HAND_N.source,
        BOLT_SOURCE,
        TOGGLE_SOURCE,
        FLASH_SOURCE,
        PRACTICE,
    ),
    example={
        "shadow_cm2": 38, "push_n": 110, "bore_mm": 35, "gap_mm": 0.05,
        "clamps": [{"kind": "bolt", "count": 4, "bolt_mm": 5}],
    },
)  # fmt: skip
def clamp(inputs: ClampInput) -> ClampAnswer:
    """Push over bore gives the pressure, pressure times shadow what the clamps must hold.

    The pressure is full only once the mold is: the last push is what lifts the halves. What the
    gate and setting skins take off it is left out, so that the force needed is the most there is.
    Raises: BadInput for a mold as hot as the plastic.
    """
    draws = Draws(seed=inputs.seed)
    pushed, held = squeeze(draws, inputs), grip(draws, inputs.clamps)
    gap, area_m2 = drawn(draws, inputs)["gap_mm"], inputs.shadow_cm2 / 1e4
    needed, flash = pushed.pressure_pa * area_m2, pushed.creep_mm(gap)
    push_held = held.all_n / area_m2 * pushed.bore_m2
    return ClampAnswer(
        pressure_kpa=draws.band(pushed.pressure_pa / 1000),
        needed_n=draws.band(needed),
        had_n=draws.band(held.all_n),
        had_ratio=draws.band(held.all_n / needed),
        lift_share=lift_share(needed, held),
        push_held_n=draws.band(push_held),
        flash_mm=draws.band(flash),
        visible_gap_mm=draws.band(pushed.gap_mm(SEEN_MM)),
        advice=tuple(_advice(inputs, needed, held, draws.band(push_held), flash)),
        notes=(
            *_left_out(inputs),
            *width_notes(draws, {"had_ratio": held.all_n / needed, "flash_mm": flash}),
            *pushed.no_skin("flash_mm", gap),
            CAUTION,
        ),
    )


def _left_out(inputs: ClampInput) -> Iterable[str]:
    yield from left_out_words(inputs)
    for i, one in enumerate(inputs.clamps):
        yield from (f"clamps[{i}].{note}" for note in left_out(one))
    yield from melt_words(inputs)


def lift_share(needed_n: Array, held: Grip) -> float:
    """Odds that the halves lift."""
    return float(np.mean(needed_n[1:] > held.all_n[1:]))


def _advice(
    inputs: ClampInput, needed: Array, held: Grip, push_held: Band, flash: Array
) -> Iterable[str]:
    if lift_share(needed, held) > _SAFE_ODDS:
        yield from _more_clamps(inputs, needed, held)
        if inputs.clamps:
            yield (
                f"Or ease off as the mold fills: these clamps surely hold {_force(push_held.low)} "
                "on the plunger. The last push, when nothing moves any more, is what lifts."
            )
        yield "Or shoot fewer cavities at once, or with a wider bore: both lower the force."
    else:
        yield "The clamps hold this push. Set them over the cavities, not at the corners."
    if float(flash[0]) > SEEN_MM:
        yield (
            "The gap alone makes flash: clean the faces, look for a warped half or a proud pin. A "
            "cooler melt hardly helps."
        )


def _more_clamps(inputs: ClampInput, needed: Array, held: Grip) -> Iterable[str]:
    if not inputs.clamps:
        short = _force(float(np.quantile(needed[1:], 1 - _SAFE_ODDS)))
        yield f"Nothing holds the halves: clamp with {short} in all, spread over the cavities."
        return
    first = inputs.clamps[0]
    more = float(np.quantile((needed - held.all_n)[1:] / held.each_n[0][1:], 1 - _SAFE_ODDS))
    count = math.ceil(more)
    if count <= _MOST_MORE:
        yield f"Add {count} more like the first row ({first.label.lower()}), over the cavities."
    else:
        yield f"{first.label} of this sort will not do: take stronger clamps."


def _force(newton: float) -> str:
    """A force for a sentence that every maker must be able to read."""
    return f"{newton:.0f} N / {convert(newton, 'n', 'lbf'):.0f} lbf"
