"""Softness from a ball under a weight, for those without a gauge."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.field import number, out, part
from pourwright.base.record import Record
from pourwright.base.source import estimate
from pourwright.blend.gauge import (
    D2240,
    HARDEST_OO,
    HERTZ,
    SOFTEST_OO,
    gauge_reads,
    oo_of_log_modulus,
)
from pourwright.blend.press import FLOOR, Known, Press, log_modulus

_DEEP = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class PressInput(Record):
    """A puck pressed, and perhaps a second one pressed the same way."""

    press: Press = part("Ball, weight and how deep it went in")
    known: Known | None = part(
        "A second puck, of known hardness, under the same ball and weight", default=None
    )
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a second puck that the ball goes through."""
        if self.known is not None:
            self.known.check_under(self.press)


@dataclass(frozen=True, slots=True)
class PressAnswer:
    """How soft the puck is."""

    modulus_kpa: Band = out("Young's modulus")
    hardness_oo: Band | None = out(
        "What a Shore OO gauge would read, about; null outside of its scale"
    )
    firmer_ratio: Band | None = out(
        "Modulus against that of the second puck, as pressed; null without one"
    )
    floor_share: float = out("Share of the push that comes from the floor under the puck, 0 to 1")
    notes: tuple[str, ...] = out("What dominates, what would narrow it")


@calculation(
    "blend.press_test",
    purpose="softness from a ball pressed into a puck",
    sources=(HERTZ, FLOOR, D2240, estimate("how long the ball rests moves the modulus by 15 %")),
    example={"press": {"ball_mm": 12, "load_g": 100, "indent_mm": 1.7, "puck_mm": 12}},
)
def press_test(inputs: PressInput) -> PressAnswer:
    """The modulus by Hertz, less what a thin puck gets from its floor.

    A second puck of known hardness, pressed the same way, takes ball, time and temperature out.
    Raises: BadInput for a dent too deep or too small to tell.
    """
    draws = Draws(seed=inputs.seed)
    log = log_modulus(draws, inputs.press, inputs.known)
    modulus = 1000 * np.exp(log.mpa)
    hardness = oo_of_log_modulus(log.as_gauge) if gauge_reads(float(log.as_gauge[0])) else None
    answers = {"modulus_kpa": modulus} if hardness is None else {"hardness_oo": hardness}
    return PressAnswer(
        modulus_kpa=draws.band(modulus),
        hardness_oo=None if hardness is None else draws.band(hardness),
        firmer_ratio=None if log.ratio is None else draws.band(log.ratio),
        floor_share=float(1 - 1 / log.floor[0]),
        notes=(*width_notes(draws, answers), *_notes(inputs, hardness, float(log.floor[0]))),
    )


def _notes(inputs: PressInput, hardness: Array | None, floor: float) -> Iterable[str]:
    press = inputs.press
    if floor > 1.25:
        need = math.sqrt(press.radius_m * press.depth_m) * 10
        yield (
            f"The floor does {1 - 1 / floor:.0%} of the push: a puck of {1000 * need:.0f} mm, or "
            "two stacked, would say more."
        )
    if press.depth_m > _DEEP * press.radius_m:
        yield "The ball goes in deep: a larger ball or less weight reads truer."
    if inputs.known is None:
        yield (
            "To tell grades apart, compare: press a puck of known hardness under the same ball and "
            "weight, rest it as long, at the same temperature."
        )
    if hardness is None:
        yield "A Shore OO gauge does not read so soft or so hard a puck."
    elif hardness.min() <= SOFTEST_OO or hardness.max() >= HARDEST_OO:
        yield "At one end of the range the gauge itself runs out of scale."
    yield (
        "Puck a day old, at 23 °C, on a hard flat floor; ball 12 mm in from its edge; read the "
        "depth 15 s after lowering the weight."
    )
