"""How one size of cup is cooked: rounds, the paper table, and what one go would do."""

from __future__ import annotations

import functools
from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn
from pourwright.base.band import Band
from pourwright.base.belief import Belief
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.forecast.request import CupPart, OvenPart, PlasticPart
from pourwright.heat import cup as cups
from pourwright.heat.belief import oven_belief as belief_from
from pourwright.heat.cooked_cup import belief_after
from pourwright.heat.coupling import CookReading, CouplingInput, belief_of
from pourwright.heat.cup import Cup, State
from pourwright.heat.history import Instrument
from pourwright.heat.next_input import target_under_c
from pourwright.heat.next_step import REST_S
from pourwright.heat.oven import Oven, believed_oven
from pourwright.heat.pourable import LEAST_POUR_C
from pourwright.heat.round import NextBurst, Round, next_bursts, rounds
from pourwright.heat.water_test import WaterTestInput
from pourwright.heat.window import cup_windows, idle_oven
from pourwright.matter.scorch import hot_limit

TABLE_C = (80.0, 100.0, 120.0, 130.0, 140.0, 150.0, 155.0, 160.0, 165.0, 170.0)
# Handling between two bursts: out, stir, read, back in.
HANDLING_S = 45.0
ONE_GO_S = 240.0
ROOM_C = Doubt("room", Band(17, 22, 28), "read the room temperature")


@dataclass(frozen=True, slots=True)
class Moment:
    """A cup at one moment of one go without a stir."""

    at_s: float
    state: State


@dataclass(frozen=True, slots=True)
class Cook:
    """The heating of one size of cup."""

    cup: Cup
    oven: Oven
    power_w: Array
    rounds: tuple[Round, ...]
    table: tuple[NextBurst, ...]
    one_go: tuple[Moment, ...]
    seconds: Array
    limit_c: float
    limit_reason: str
    cup_window_s: Array
    draws: Draws


def oven_belief(oven: OvenPart) -> Belief:
    """What label, water tests, readings and the cups cooked in it say of the oven."""
    return belief_after(_start_belief(oven), oven.cups, thermometer=oven.thermometer)


def _start_belief(oven: OvenPart) -> Belief:
    """Before any cup was followed. The bias of a probe says nothing of a gun's, nor the reverse."""
    gun = oven.instrument is Instrument.INFRARED
    found = belief_of(
        CouplingInput(
            label_w=oven.label_w,
            water_tests=tuple(
                WaterTestInput(
                    water_g=t.water_g, start_c=t.start_c, end_c=t.end_c, on_s=t.on_s,
                    vessel_g=t.vessel_g, ambient_c=t.ambient_c,
                )
                for t in oven.water_tests
            ),
            readings=tuple(
                CookReading(plastic_g=r.plastic_g, on_s=r.on_s, surface_c=r.surface_c)
                if r.start_c is None
                else CookReading(
                    plastic_g=r.plastic_g, on_s=r.on_s, surface_c=r.surface_c, start_c=r.start_c
                )
                for r in oven.readings
            ),
            thermometer_bias_k=oven.thermometer_bias_k if gun else None,
            thermometer_spread_k=min(oven.thermometer_spread_k, 5.0),
        )
    )  # fmt: skip
    if gun or oven.thermometer_bias_k is None:
        return found
    return _with(found, "probe_bias_k", oven.thermometer_bias_k, oven.thermometer_spread_k)


def _with(belief: Belief, name: str, mean: float, spread: float) -> Belief:
    """A belief in which one parameter was checked apart from all others."""
    at = belief.names.index(name)
    means, covariance = np.array(belief.mean), np.array(belief.covariance)
    means[at] = mean
    covariance[at, :] = covariance[:, at] = 0.0
    covariance[at, at] = spread**2
    return belief_from(means, covariance)


@dataclass(frozen=True, slots=True)
class Kitchen:
    """All that the heating of a cup depends on, besides what is in it."""

    oven: OvenPart
    cup: CupPart
    plastic: PlasticPart
    ambient_c: float | None
    seed: int
    count: int

    @property
    def target_c(self) -> float:
        """Mean to pour at: the one asked for, as far as the hot limit leaves it room."""
        limit, _ = hot_limit(self.plastic.flash_point_c)
        return target_under_c(self.oven.target_c, limit)


@functools.lru_cache(maxsize=128)
def cook(kitchen: Kitchen, plastic_g: float) -> Cook:
    """Rounds to the target for a cup that holds so much, and the table for paper.

    Kept, since a changed count leaves most cups as they were.
    """
    draws = Draws(seed=kitchen.seed, count=kitchen.count)
    cup = cup_of(
        draws, kitchen.cup, plastic_g=plastic_g,
        cold_g_ml=drawn(draws, kitchen.plastic, "plastic ")["cold_density_g_ml"],
    )  # fmt: skip
    oven = believed_oven(
        draws,
        oven_belief(kitchen.oven),
        plastic_kg=cup.plastic_kg,
        ambient_c=_drawn_room(draws, kitchen.ambient_c),
    )
    start = cups.cold_start(drawn(draws, kitchen.oven, "oven ")["start_c"])
    limit, reason = hot_limit(kitchen.plastic.flash_point_c)
    target = kitchen.target_c
    found = rounds(cup, oven, start, target_c=target, limit_c=limit)
    table = next_bursts(cup, oven, readings_c=TABLE_C, target_c=target, limit_c=limit)
    seconds = sum(r.on_s for r in found) + len(found) * (REST_S + HANDLING_S)
    return Cook(
        cup=cup,
        oven=oven,
        power_w=oven.power_w,
        rounds=found,
        table=table,
        one_go=_one_go(cup, oven, start),
        seconds=seconds * oven.power_w[0] / oven.power_w,
        limit_c=limit,
        limit_reason=reason,
        cup_window_s=cup_windows(
            cup, idle_oven(draws, oven.ambient_c), melt_c=target, limits_c=(LEAST_POUR_C,)
        )[0],
        draws=draws,
    )


def _drawn_room(draws: Draws, ambient_c: float | None) -> Array:
    if ambient_c is not None:
        return draws.known(ambient_c)
    return draws.of("room", ROOM_C)


def cup_of(draws: Draws, part: CupPart, *, plastic_g: float, cold_g_ml: Array) -> Cup:
    """The filled cup; glass and diameter follow from the brim volume where nobody measured."""
    v = drawn(draws, part, "cup ")
    return cups.filled_cup(
        plastic_kg=plastic_g / 1000,
        cold_g_ml=cold_g_ml,
        glass_kg=v["glass_g_per_ml"] * part.brim_ml / 1000,
        diameter_m=v["diameter_ratio"] * part.brim_ml ** (1 / 3) / 100,
    )


def _one_go(cup: Cup, oven: Oven, start: State) -> tuple[Moment, ...]:
    """Four and six minutes for a small oven's half kilogram, scaled by load and power.

    Common practice heats in one go; this shows what that does, and is never advice.
    """
    scale = float(cup.plastic_kg / 0.498 * 475 / oven.power_w[0])
    first = cups.burst(start, cup, oven, ONE_GO_S * scale, step_s=6.0)
    second = cups.advance(first, cup, oven, ONE_GO_S / 2 * scale, on=True, step_s=6.0)
    return (Moment(ONE_GO_S * scale, first), Moment(1.5 * ONE_GO_S * scale, second))
