"""What is known of a kitchen beforehand, and what is asked of it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.heat.carried_belief import CarriedBelief
from pourwright.heat.next_input import NextBurstInput, proposed_target_c
from pourwright.heat.water_test import WaterTestInput
from pourwright.matter.scorch import hot_limit
from speed import kitchen

Array = NDArray[np.float64]
CUPS = 4
SIZES_G = (250.0, 350.0, 498.0, 700.0)
SIZE_BY_CUP = (1.0, 1.0, 0.65, 1.0)
START_C, ROOM_C, REST_S = 22.0, 22.0, 15.0
CHECK_SPREAD_K, KETTLE_SPREAD_K, CHECK_PAIRS = 0.85, 0.6, 6


@dataclass(frozen=True, slots=True)
class Scenario:
    """One row of the bench. `wild_k` is added, with either sign, to one reading of every cup."""

    name: str
    flash_point_c: float | None
    checked: bool
    water_test: bool
    wild_k: float = 0.0

    @property
    def limit_c(self) -> float:
        """Limit for the hottest place."""
        return hot_limit(self.flash_point_c)[0]

    @property
    def target_c(self) -> float:
        """What the product proposes under that limit."""
        return proposed_target_c(self.limit_c)

    @property
    def near_k(self) -> float:
        """How near the end has to be: a checked thermometer is worth more."""
        return 3.0 if self.checked else 5.0


SCENARIOS = (
    Scenario("limit 200 °C, thermometer checked, label only", 213.0, True, False),
    Scenario("limit 180 °C, thermometer checked, label only", None, True, False),
    Scenario("limit 200 °C, infrared alone, water test", 213.0, False, True),
    Scenario("limit 180 °C, infrared alone, label only", None, False, False),
    Scenario("limit 200 °C, checked, one wild reading in every cup", 213.0, True, False, 25.0),
)


def sizes_g(seeds: list[int]) -> Array:
    """The usual batch of every oven."""
    return np.array([SIZES_G[s % len(SIZES_G)] for s in seeds])


def checked_bias_k(ovens: kitchen.Ovens, grams: Array, rng: np.random.Generator) -> Array:
    """The gun against a probe that has seen a kettle: six times in a stirred cup, at 165 °C."""
    cups = kitchen.fresh_cups(ovens, 0, grams, 150.0)
    cups = kitchen.heat(cups, 35.0)
    apart = np.zeros((CHECK_PAIRS, len(grams)))
    for i in range(CHECK_PAIRS):
        cups = kitchen.stir(kitchen.rest(cups, 3.0))
        probe = kitchen.read_probe(cups, rng) - ovens.probe_bias_k
        apart[i] = kitchen.read_while_stirring(cups, rng) - probe
    kettle = rng.normal(0, KETTLE_SPREAD_K, len(grams))
    return np.asarray(apart.mean(axis=0) - kettle)


def question(
    ovens: kitchen.Ovens,
    i: int,
    held_g: float,
    scenario: Scenario,
    carry: CarriedBelief | None,
    bias_k: Array | None,
) -> NextBurstInput:
    """What the product is told of a fresh cup in one oven."""
    label = None if carry else float(ovens.oven.label_w[i])
    tests = (_water_test(ovens, i),) if scenario.water_test and carry is None else ()
    return NextBurstInput(
        plastic_g=held_g,
        cup_g=_glass_g(ovens, i),
        cup_diameter_mm=float(2000 * ovens.glass.inner_m[i]),
        start_c=START_C,
        ambient_c=ROOM_C,
        flash_point_c=scenario.flash_point_c,
        prior=carry,
        label_w=label,
        water_tests=tests,
        thermometer_bias_k=None if bias_k is None or carry else float(bias_k[i]),
        thermometer_spread_k=CHECK_SPREAD_K,
    )


def _glass_g(ovens: kitchen.Ovens, i: int) -> float:
    """What a scale says of the empty cup."""
    glass = ovens.glass
    outer = glass.inner_m[i] + glass.wall_m[i]
    wall = np.pi * (outer**2 - glass.inner_m[i] ** 2) * glass.tall_m[i]
    floor = np.pi * outer**2 * glass.floor_m[i]
    return float(1000 * glass.density_kg_m3[i] * (wall + floor))


def _water_test(ovens: kitchen.Ovens, i: int) -> WaterTestInput:
    """Half a liter for a minute; how plastic takes up against water is unknown to 14 %."""
    rng = np.random.default_rng([11, int(ovens.seed[i])])
    power = ovens.oven.power_w[i] / 0.92 * np.exp(0.14 * rng.normal())
    heat = power * (60 - ovens.oven.warm_up_s[i])
    rise = heat / (500 * 4.182 + 0.5 * 400 * 0.83) + 0.4 * rng.normal()
    return WaterTestInput(water_g=500, start_c=20, end_c=20 + rise, on_s=60, vessel_g=400)
