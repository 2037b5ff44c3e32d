"""Rounds in the microwave: how long the next burst may be, and a table for paper."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from pourwright.base.draws import Array
from pourwright.heat import cup as cups
from pourwright.heat.cup import MEAN, Cup, Oven, State

STIR_AT_C = 75.0
REST_S = 20.0
LONGEST_S = 600.0
STEP_S = 5.0
MOST_ROUNDS = 6
SHORTEST_S = 10.0
CLOSE_K = 2.5


@dataclass(frozen=True, slots=True)
class Round:
    """One burst with the states it leads through."""

    on_s: float
    before: State
    hot: State
    after: State
    limited: bool


@dataclass(frozen=True, slots=True)
class NextBurst:
    """Seconds to heat from a reading: typical, with its range, cut where the limit bites."""

    reads_c: float
    on_s: float
    low_s: float
    high_s: float
    limited: bool


def rounds(
    cup: Cup, oven: Oven, start: State, *, target_c: float, limit_c: float
) -> tuple[Round, ...]:
    """Bursts to the target, each cut so that the 95th percentile of the hottest place stays low.

    The first burst ends before the gel so that it can be stirred; every later one starts from a
    state that has been read, so that only the doubt of one burst counts.
    """
    found: list[Round] = []
    state = start
    while len(found) < MOST_ROUNDS:
        goal = STIR_AT_C if not found and start.mean_c[0] < STIR_AT_C - 10 else target_c
        burst = _burst(cup, oven, state, goal_c=goal, limit_c=limit_c)
        if burst is None:
            break
        found.append(burst)
        if burst.after.mean_c[0] >= target_c - CLOSE_K:
            break
        state = _as_read(burst.after, oven)
    return tuple(found)


def next_bursts(
    cup: Cup,
    oven: Oven,
    fused: Array,
    *,
    readings_c: tuple[float, ...],
    target_c: float,
    limit_c: float,
) -> tuple[NextBurst, ...]:
    """For each reading after a stir, the seconds that reach the target: the table for paper.

    `fused` is the fused share to assume at each reading. All rows run at once.
    """  # fmt: skip
    state = _read_states(oven, readings_c, fused)
    reached = np.full((len(readings_c), state.mean_c.shape[-1]), np.inf)
    limit_s = np.full(len(readings_c), np.inf)
    at = 0.0
    while at < LONGEST_S and (np.isinf(reached[:, 0]) & np.isinf(limit_s)).any():
        done = _after_rest_c(state) >= target_c
        reached = np.where(done & np.isinf(reached), at, reached)
        over = np.quantile(state.hottest_c[..., 1:], 0.95, axis=-1) > limit_c
        limit_s = np.where(over & np.isinf(limit_s), max(at - STEP_S, 0.0), limit_s)
        state = cups.advance(state, cup, oven, STEP_S, on=True)
        at += STEP_S
    return tuple(_row(reads, reached[i], float(limit_s[i])) for i, reads in enumerate(readings_c))


def _row(reads_c: float, reached_s: Array, limit_s: float) -> NextBurst:
    ceiling = min(limit_s, LONGEST_S)
    times = np.minimum(reached_s, ceiling)
    low, high = np.quantile(times[1:], [0.05, 0.95])
    typical = float(times[0])
    return NextBurst(
        reads_c, typical, min(float(low), typical), max(float(high), typical),
        limited=bool(reached_s[0] > limit_s),
    )  # fmt: skip


def _burst(cup: Cup, oven: Oven, start: State, *, goal_c: float, limit_c: float) -> Round | None:
    state, at, limited = start, 0.0, False
    while at < LONGEST_S and _after_rest_c(state)[0] < goal_c:
        further = cups.advance(state, cup, oven, STEP_S, on=True)
        if np.quantile(further.hottest_c[1:], 0.95) > limit_c:
            limited = True
            break
        state, at = further, at + STEP_S
    if at < SHORTEST_S:
        return None
    rested = cups.advance(state, cup, oven, REST_S, on=False)
    return Round(at, start, state, cups.stirred(rested), limited)


def _after_rest_c(state: State) -> Array:
    """Mean after the rest and the stir: a hot cup gives its glass some two kelvin meanwhile."""
    return np.asarray(state.mean_c - 0.015 * np.maximum(state.mean_c - 25, 0))


def _as_read(state: State, oven: Oven) -> State:
    """A state that has just been read: its spread is that of the thermometer."""
    typical = state.mean_c[0]
    film = 0.027 * max(float(typical) - 40, 0.0)
    spread = oven.bias_k - oven.bias_k[0] - 0.35 * film * oven.surface_score
    return replace(state, mean_c=typical + spread)


def _read_states(oven: Oven, readings_c: tuple[float, ...], fused: Array) -> State:
    n = oven.power_w.shape[-1]
    reads = np.array(readings_c)[:, None]
    film = 0.027 * np.maximum(reads - 40, 0)
    mean = reads + film - oven.bias_k + 0.35 * film * oven.surface_score
    glass = 22 + 0.55 * (mean - 22)
    zero = np.zeros((len(readings_c), n))
    gelled = np.broadcast_to(np.where(reads > STIR_AT_C + 5, 1.0, 0.2), zero.shape)
    melted = np.broadcast_to(fused[:, None], zero.shape)
    return State(
        mean_c=mean,
        glass_c=glass,
        ahead_k=zero,
        behind_k=zero,
        gelled=np.stack([gelled] * 3),
        fused=np.stack([melted * gelled] * 3),
        dose=zero,
        stirred=True,
    )


def fused_share(state: State) -> float:
    """Fused share of most of the cup on the typical draw."""
    return float(state.fused[MEAN, 0])
