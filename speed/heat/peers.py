"""What the product is held against: one go by the label, a fixed schedule, all-knowing hands."""

from __future__ import annotations

import numpy as np

from speed import kitchen
from speed.heat.loop import CupRow, Record
from speed.heat.scenario import (
    REST_S,
    START_C,
    Array,
    Scenario,
    checked_bias_k,
    sizes_g,
)

COUPLED, HEAT_J_KGK, HALF_LOAD_KG = 0.66, 1850.0, 0.1
SCHEDULE_S = (120.0, 60.0, *(30.0,) * 14)
READY_READS_C = (330 - 32) / 1.8
HALVINGS, MOST_BURSTS, CLOSE_K = 9, 6, 1.0
ORACLE_MARGIN_K = 0.5
# No burst worth trying ends hotter than this.
TRIED_C = 240.0


def one_go(seeds: list[int], scenario: Scenario) -> Record:
    """Seconds from the watts on the label, once; then a stir."""
    grams = sizes_g(seeds)
    ovens = kitchen.draw_ovens(seeds, plastic_g=grams)
    cups = kitchen.fresh_cups(ovens, 0, grams, START_C)
    kg = grams / 1000
    load = kg / (kg + HALF_LOAD_KG) * (0.5 + HALF_LOAD_KG) / 0.5
    watts = COUPLED * ovens.oven.label_w * load
    on_s = kg * HEAT_J_KGK * (scenario.target_c - START_C) / (0.9 * watts)
    cups = kitchen.stir(kitchen.rest(kitchen.heat(cups, on_s), REST_S))
    return Record(cups=_rows(cups, np.ones(len(seeds)), scenario))


def fixed(seeds: list[int], scenario: Scenario) -> Record:
    """2:00, 1:00, then 0:30 until a stirred reading shows 330 °F."""
    grams = sizes_g(seeds)
    ovens = kitchen.draw_ovens(seeds, plastic_g=grams)
    rng = np.random.default_rng([7, seeds[0]])
    bias = checked_bias_k(ovens, grams, rng) if scenario.checked else np.zeros(len(seeds))
    cups = kitchen.fresh_cups(ovens, 0, grams, START_C)
    going, rounds = np.ones(len(seeds), bool), np.zeros(len(seeds))
    for burst_s in SCHEDULE_S:
        rounds += going
        cups = kitchen.rest(
            kitchen.heat(cups, np.where(going, burst_s, 0.0)), np.where(going, REST_S, 0.0)
        )
        cups = kitchen.stir(cups, going)
        read = kitchen.read_while_stirring(cups, rng) - bias
        going = going & (read < READY_READS_C)
        if not going.any():
            break
    return Record(cups=_rows(cups, rounds, scenario))


def oracle(seeds: list[int], scenario: Scenario) -> Record:
    """Hands that know the kitchen: every burst as long as target and limit allow."""
    grams = sizes_g(seeds)
    ovens = kitchen.draw_ovens(seeds, plastic_g=grams)
    cups = kitchen.fresh_cups(ovens, 0, grams, START_C)
    rounds = np.zeros(len(seeds))
    for _ in range(MOST_BURSTS):
        going = kitchen.mean_c(cups) < scenario.target_c - CLOSE_K
        if not going.any():
            break
        rounds += going
        cups = _tried(cups, np.where(going, _longest_s(cups, scenario), 0.0))
    return Record(cups=_rows(cups, rounds, scenario))


def _longest_s(cups: kitchen.Cups, scenario: Scenario) -> Array:
    oven = cups.ovens.oven
    load = cups.plastic_kg / (cups.plastic_kg + oven.half_load_kg)
    watts = oven.power_w * load * (0.5 + oven.half_load_kg) / 0.5
    reach = np.maximum(TRIED_C - kitchen.mean_c(cups), 5.0)
    low, high = np.zeros(len(cups)), cups.plastic_kg * HEAT_J_KGK * reach / watts
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        tried = _tried(cups, middle)
        good = (kitchen.mean_c(tried) < scenario.target_c) & (
            tried.peak_c < scenario.limit_c - ORACLE_MARGIN_K
        )
        low, high = np.where(good, middle, low), np.where(good, high, middle)
    return low


def _tried(cups: kitchen.Cups, on_s: Array) -> kitchen.Cups:
    heated = on_s > 0
    rested = kitchen.rest(kitchen.heat(cups, on_s), np.where(heated, REST_S, 0.0))
    return kitchen.stir(rested, heated)


def _rows(cups: kitchen.Cups, rounds: Array, scenario: Scenario) -> list[CupRow]:
    off = kitchen.mean_c(cups) - scenario.target_c
    fused = kitchen.fused(cups)
    return [
        CupRow(
            cup=0,
            rounds=int(rounds[i]),
            off_k=float(off[i]),
            over=bool(cups.peak_c[i] > scenario.limit_c),
            fused=float(fused[i]),
            poured=True,
            doubts=0,
        )
        for i in range(len(rounds))
    ]
