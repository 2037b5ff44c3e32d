"""All that is known of one oven, joined: label, water tests, timed readings."""

from __future__ import annotations

import functools
from dataclasses import dataclass

import numpy as np

from pourwright.base.band import Band
from pourwright.base.belief import Belief
from pourwright.base.calc import calculation
from pourwright.base.draws import Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import number, out, part, parts, unmeasured
from pourwright.base.record import Record
from pourwright.base.source import estimate
from pourwright.heat.belief import CHECKED_BIAS_SPREAD_K, carried, prior
from pourwright.heat.carried_belief import CarriedBelief, carried_belief
from pourwright.heat.history import Did, Step
from pourwright.heat.learn import Fit, fitted
from pourwright.heat.replay import usual_fill
from pourwright.heat.water_test import EFFECTIVE, WaterTestInput, spread_of, water_power

TYPICAL_LABEL_W = (650.0, 900.0, 1200.0)
UNLABELED_SPREAD = 0.18
ODD_READING = 3.0
START_SPREAD_K = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CookReading(Record):
    """An earlier cook in one go: seconds on, then what the surface read before the stir."""

    plastic_g: float = number("Plastic in the cup", low=20, high=3000)
    on_s: float = number("Time on", low=15, high=1200)
    surface_c: float = number("Surface read", low=30, high=230)
    start_c: float = number("Plastic at the start", low=-5, high=60, default=22)

    def check(self) -> None:
        """Refuse a cup that did not get warmer."""
        if self.surface_c <= self.start_c:
            why = f"must be above the start of {self.start_c:g} °C"
            raise BadInput("surface_c", self.surface_c, why)


@dataclass(frozen=True, slots=True, kw_only=True)
class CouplingInput(Record):
    """What is known of one oven; everything may be left out."""

    label_w: float | None = unmeasured(
        "Watts on its label", low=300, high=2200, typical=TYPICAL_LABEL_W,
        measure="read the label inside the door", logarithmic=True,
    )  # fmt: skip
    water_tests: tuple[WaterTestInput, ...] = parts("Water tests", most=20)
    readings: tuple[CookReading, ...] = parts("Earlier cooks", most=50)
    prior: CarriedBelief | None = part(
        "Belief from last time; it holds label and water tests already", default=None
    )
    thermometer_bias_k: float | None = number(
        "Thermometer reads high by", low=-15, high=15, default=None
    )
    thermometer_spread_k: float = number(
        "How well that is known, as a standard deviation",
        low=0.1, high=5, default=CHECKED_BIAS_SPREAD_K,
    )  # fmt: skip
    cup_g: float = number("Cup of the earlier cooks", low=20, high=3000, default=420)
    cup_diameter_mm: float = number("Its inside diameter", low=30, high=250, default=89)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse to count what a prior holds a second time."""
        for name in ("label_w", "water_tests", "thermometer_bias_k"):
            if self.prior is not None and getattr(self, name) not in (None, ()):
                raise BadInput(name, getattr(self, name), "is in the prior already; leave it out")


@dataclass(frozen=True, slots=True)
class CouplingAnswer:
    """The effective power into half a kilogram of plastic, and the belief behind it."""

    plastic_power_w: Band = out("Effective power of the reduced cup model; not a measured wattage")
    belief: CarriedBelief = out("Joint belief of power, losses, surface and bias; hand it on")
    notes: tuple[str, ...] = out("What it rests on, and what would narrow it")


@calculation(
    "oven.coupling",
    purpose="effective power into plastic from label, water tests and earlier readings",
    sources=(
        estimate("0.66 of the label, sd 25 %; 0.92 of a water test, sd 14 %"),
        estimate("Gauss-Newton fit of the reduced cup with a Laplace spread"),
    ),
    example={
        "label_w": 650,
        "water_tests": [
            {"water_g": 500, "start_c": 20, "end_c": 32.8, "on_s": 60, "vessel_g": 400}
        ],
        "readings": [{"plastic_g": 498, "on_s": 360, "surface_c": 170}],
    },
)
def coupling(inputs: CouplingInput) -> CouplingAnswer:
    """Joins what is known, each piece weighed by its spread; cooks count in their order."""
    belief = belief_of(inputs)
    draws = Draws(seed=inputs.seed)
    power = np.asarray(np.exp(belief.draw(draws)["ln_power_w"]))
    return CouplingAnswer(draws.band(power), carried_belief(belief), _notes(inputs))


@functools.lru_cache(maxsize=64)
def belief_of(inputs: CouplingInput) -> Belief:
    """The belief of the reduced cup model for one oven."""
    belief = _start(inputs)
    for fit in _fits(inputs):
        belief = fit.oven()
    return belief


def _fits(inputs: CouplingInput) -> tuple[Fit, ...]:
    belief, found = _start(inputs), []
    for i, reading in enumerate(inputs.readings):
        fill = usual_fill(
            plastic_g=reading.plastic_g,
            start_c=reading.start_c,
            ambient_c=None,
            glass_g=inputs.cup_g,
            diameter_mm=inputs.cup_diameter_mm,
        )
        steps = (
            Step(did=Did.HEATED, for_s=reading.on_s),
            Step(did=Did.READ, read_c=reading.surface_c),
        )
        before = carried(belief) if i else belief
        fit = fitted(before, fill, steps, start_spread_k=START_SPREAD_K)
        belief = fit.oven()
        found.append(fit)
    return tuple(found)


def _start(inputs: CouplingInput) -> Belief:
    if inputs.prior is not None:
        return carried(inputs.prior.belief())
    draws = Draws(seed=inputs.seed)
    return prior(
        label_w=inputs.label_w or TYPICAL_LABEL_W[1],
        label_spread=0.0 if inputs.label_w else UNLABELED_SPREAD,
        water=[spread_of(water_power(draws, t)) for t in inputs.water_tests],
        bias_k=inputs.thermometer_bias_k,
        bias_spread_k=inputs.thermometer_spread_k,
    )


def _notes(inputs: CouplingInput) -> tuple[str, ...]:
    notes = [EFFECTIVE]
    if inputs.prior is None and inputs.label_w is None and not inputs.water_tests:
        notes.append(
            "label_w was left out: typical 900 W (650 to 1200) stands in. "
            "To replace it, read the label inside the door."
        )
    if inputs.prior is None and not inputs.water_tests:
        notes.append("To narrow it, do a water test: half a liter, one minute, stirred.")
    if not inputs.readings:
        notes.append("To narrow it most, time one cook and read it after each stir.")
    for i, fit in enumerate(_fits(inputs)):
        far = fit.misses_k[0] / fit.spreads_k[0]
        if abs(far) > ODD_READING:
            side = "above" if far > 0 else "below"
            notes.append(
                f"readings[{i}] lies far {side} what the rest suggests and counts less: check "
                "its time, batch and unit."
            )
    return tuple(notes)
