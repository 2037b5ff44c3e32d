"""Rounds in the microwave: how long the next burst may be, and a table for paper."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from pourwright.base.draws import Array
from pourwright.heat import cup as cups
from pourwright.heat.cup import Cup, State, q95
from pourwright.heat.oven import Oven
from pourwright.heat.surface import mean_behind
from pourwright.matter.gelation import GEL_ONSET_C

REST_S = 20.0
LONGEST_S = 600.0
STEP_S = 5.0
MOST_ROUNDS = 5
SHORTEST_S = 10.0
CLOSE_K = 2.5
# Glass against its plastic when a reading is taken, both above a usual room: estimate.
_ROOM_C, _GLASS_FOLLOWS = 22.0, 0.55
# Fused share by reading after a stir, which only steers the heat into the glass: estimate.
_FUSED_BY_READING = ((140.0, 0.0), (150.0, 0.3), (160.0, 0.8), (170.0, 0.95))


@dataclass(frozen=True, slots=True)
class Round:
    """One burst with the states it leads through: before, at switch-off, rested and stirred."""

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
    """At most five bursts toward the target, each cut so that the hottest place stays low.

    The first burst ends as the gel starts, so that it can be stirred; every later one starts
    from a state that has been read, so that only the doubt of one burst counts. The 95th
    percentile of the hottest place never passes the limit; the last round's `after` falls short
    of the target where the limit allows no more.
    """
    found: list[Round] = []
    state = start
    while len(found) < MOST_ROUNDS:
        gel_c = GEL_ONSET_C.typical
        goal = gel_c if not found and start.mean_c[0] < gel_c - 10 else target_c
        burst = _burst(cup, oven, state, goal_c=goal, limit_c=limit_c)
        if burst is None:
            break
        found.append(burst)
        if burst.after.mean_c[0] >= target_c - CLOSE_K:
            break
        state = _as_read(burst.after, oven)
    return tuple(found)


def next_bursts(
    cup: Cup, oven: Oven, *, readings_c: tuple[float, ...], target_c: float, limit_c: float
) -> tuple[NextBurst, ...]:
    """For each reading after a stir, the seconds that reach the target: the table for paper.

    A row is `limited` where the 95th percentile of the hottest place would pass the limit first;
    its seconds then end there. Rows run at once.
    """
    state = _read_states(oven, readings_c)
    reached = np.full(state.mean_c.shape, np.inf)
    limit_s = np.full(len(readings_c), np.inf)
    at = 0.0
    while at < LONGEST_S:
        reached = np.where((_after_rest_c(state) >= target_c) & np.isinf(reached), at, reached)
        over = q95(state.hottest_c) > limit_c
        limit_s = np.where(over & np.isinf(limit_s), max(at - STEP_S, 0.0), limit_s)
        slow = (np.isinf(reached).mean(axis=1) > 0.04) | np.isinf(reached[:, 0])
        if not (slow & np.isinf(limit_s)).any():
            break
        state = cups.advance(state, cup, oven, STEP_S, on=True, step_s=STEP_S)
        at += STEP_S
    return tuple(_row(reads, reached[i], float(limit_s[i])) for i, reads in enumerate(readings_c))


def _row(reads_c: float, reached_s: Array, limit_s: float) -> NextBurst:
    times = np.minimum(reached_s, min(limit_s, LONGEST_S))
    low, high = np.quantile(times[1:], [0.05, 0.95])
    typical = float(times[0])
    return NextBurst(
        reads_c=reads_c,
        on_s=typical,
        low_s=min(float(low), typical),
        high_s=max(float(high), typical),
        limited=bool(reached_s[0] > min(limit_s, LONGEST_S)),
    )


def _burst(cup: Cup, oven: Oven, start: State, *, goal_c: float, limit_c: float) -> Round | None:
    state, at, limited = start, 0.0, False
    while at < LONGEST_S and _after_rest_c(state)[0] < goal_c:
        further = cups.advance(state, cup, oven, STEP_S, on=True, step_s=STEP_S)
        if q95(further.hottest_c) > limit_c:
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
    """A stirred state that has just been read: its spread is that of the reading."""
    read_c = float(cups.reading(state, oven)[0])
    mean = mean_behind(read_c - oven.reading_bias_k, oven.surface_offset_k)
    return replace(state, mean_c=mean)


def _read_states(oven: Oven, readings_c: tuple[float, ...]) -> State:
    reads = np.array(readings_c)[:, None]
    mean = mean_behind(reads - oven.reading_bias_k, oven.surface_offset_k)
    gelled = np.where(reads > GEL_ONSET_C.typical + 5, 1.0, 0.2) + np.zeros_like(mean)
    known, shares = zip(*_FUSED_BY_READING, strict=True)
    fused = np.interp(reads, known, shares) * gelled
    zero = np.zeros_like(mean)
    return State(
        mean_c=mean,
        glass_c=_ROOM_C + _GLASS_FOLLOWS * (mean - _ROOM_C),
        ahead_k=zero,
        behind_k=zero,
        gelled=np.stack([gelled] * 3),
        fused=np.stack([fused] * 3),
        dose=zero,
        stirred=True,
    )
