"""One pressing of a ball into a puck, and the modulus it shows."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from pourwright.base.band import Band, rounded_to
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.base.record import Record
from pourwright.base.source import published
from pourwright.blend.gauge import log_modulus_of_oo, log_modulus_per_oo, oo_of_log_modulus
from pourwright.physics.convection import GRAVITY_M_S2
from pourwright.physics.indent import floor_factor, hertz_modulus_pa

FLOOR = published(
    "Dimitriadis et al., Biophys. J. 82 (2002) 2798, eqs. 12 and 13: a soft layer on a hard floor"
)
_TOUCH = Doubt(
    "where the ball first touches", Band(-1e-4, 0, 1e-4),
    "set the zero under the bare ball with a strip of cigarette paper",
)  # fmt: skip
_STUCK = Doubt("whether the puck sticks to its floor", Band(0, 0.5, 1), "oil the floor")
_TIME = Doubt(
    "how long and how warm", Band(0.85, 1.0, 1.15),
    "press a puck of known hardness beside it", logarithmic=True,
)  # fmt: skip
# The gauge's own ball sinks in beyond Hertz at the soft end; estimate.
_GAUGE = Doubt(
    "what a gauge makes of that modulus", Band(1 / 1.5, 1.0, 1.5),
    "press a puck of known hardness beside it", logarithmic=True,
)  # fmt: skip
_KNOWN_MISS_OO = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Press(Record):
    """A ball on a weighted rod, let down on a puck."""

    ball_mm: float = number("Ball across", low=2, high=60)
    load_g: float = number("Ball, rod and weight together", low=2, high=5000)
    indent_mm: float = number("How deep the ball went in", low=0.05, high=30)
    puck_mm: float = number("Thickness of the puck", low=3, high=80)
    step_mm: float = number("Smallest step of caliper or dial", low=0.001, high=1, default=0.1)

    @property
    def radius_m(self) -> float:
        """Radius of the ball."""
        return self.ball_mm / 2000

    @property
    def depth_m(self) -> float:
        """How deep it went."""
        return self.indent_mm / 1000

    def check(self) -> None:
        """Refuse a ball that goes in too deep or too little to tell."""
        _check_depth(self, self.indent_mm, self.puck_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Known(Record):
    """A second puck, of known hardness, under the same ball and weight."""

    indent_mm: float = number("How deep the ball went in", low=0.05, high=30)
    puck_mm: float = number("Thickness of the puck", low=3, high=80)
    hardness_oo: float = number("Its hardness, Shore OO", low=5, high=95)

    def check_under(self, press: Press) -> None:
        """Refuse a depth that the ball of that pressing cannot tell."""
        try:
            _check_depth(press, self.indent_mm, self.puck_mm)
        except BadInput as error:
            raise BadInput(f"known.{error.field}", error.value, error.why) from error


@dataclass(frozen=True, slots=True)
class LogModulus:
    """Natural logarithms of a modulus in MPa, drawn: as pressed, and on the gauge's scale."""

    mpa: Array
    as_gauge: Array
    floor: Array
    ratio: Array | None


def log_modulus(draws: Draws, press: Press, known: Known | None = None) -> LogModulus:
    """The modulus behind a pressing; beside a known puck by comparison with it."""
    own, floor = _pressed(draws, press, press, "the puck")
    if known is None:
        mpa = own + np.log(draws.of(_TIME.label, _TIME))
        return LogModulus(mpa, mpa + np.log(draws.of(_GAUGE.label, _GAUGE)), floor, None)
    other, _ = _pressed(draws, press, known, "the known puck")
    label = "hardness of the known puck"
    miss = draws.of(label, Doubt(label, Band(-_KNOWN_MISS_OO, 0, _KNOWN_MISS_OO), ""))
    slope = log_modulus_per_oo(known.hardness_oo)
    scale = log_modulus_of_oo(known.hardness_oo) + slope * miss - other
    return LogModulus(own + scale, own + scale, floor, np.exp(own - other))


def press_oo(press: Press) -> Band:
    """Shore OO band of a single pressing.

    Raises: NoAnswer for a modulus outside what a Shore OO gauge reads.
    """
    draws = Draws()
    return draws.band(oo_of_log_modulus(log_modulus(draws, press).as_gauge))


def _pressed(draws: Draws, press: Press, puck: Press | Known, which: str) -> tuple[Array, Array]:
    """Logarithm of the modulus in MPa without what time does, and the floor's factor."""
    label = f"step of the depth in {which}"
    step = draws.of(
        label, Doubt(label, rounded_to(press.step_mm / 1000), "read it with a finer dial")
    )
    depth = np.maximum(puck.indent_mm / 1000 + step + draws.of(_TOUCH.label, _TOUCH), 1e-5)
    stuck = np.clip(draws.of(_STUCK.label, _STUCK), 0, 1)
    floor = floor_factor(
        radius_m=press.radius_m, depth_m=depth, thick_m=puck.puck_mm / 1000, stuck=stuck
    )
    force = press.load_g / 1000 * GRAVITY_M_S2
    pascal = hertz_modulus_pa(force_n=force, radius_m=press.radius_m, depth_m=depth) / floor
    return np.log(pascal / 1e6), floor


def _check_depth(press: Press, indent_mm: float, puck_mm: float) -> None:
    if indent_mm > press.ball_mm / 2:
        why = "is deeper than the ball's radius: take a larger ball or less weight"
        raise BadInput("indent_mm", indent_mm, why)
    if indent_mm < 2 * press.step_mm:
        why = f"is too little to read in steps of {press.step_mm:g} mm: take more weight"
        raise BadInput("indent_mm", indent_mm, why)
    if math.sqrt(indent_mm * press.ball_mm / 2) > puck_mm:
        why = "is too thin under such a dent: stack two, or take a smaller ball"
        raise BadInput("puck_mm", puck_mm, why)
