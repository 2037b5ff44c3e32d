"""Rounds in the microwave: how long the next burst may be, and a table for paper."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from pourwright.base.draws import Array
from pourwright.heat import cup as cups
from pourwright.heat.cup import HEATS_AFTER_S, Cup, State
from pourwright.heat.next_step import (
    AIM_K,
    HOT_DEVIATIONS,
    HOT_MARGIN_K,
    LONGEST_S,
    REST_S,
    STEP_S,
    Next,
    heating,
    warm_enough,
)
from pourwright.heat.oven import Oven
from pourwright.heat.standing import Held
from pourwright.heat.surface import mean_behind
from pourwright.matter.gelation import GEL_ONSET_C

MOST_ROUNDS = 5
# From the reading to the oven running again: estimate.
HANDLING_S = 10.0
# Spread of the logarithm of the power after one reading at the gel, as the closed loop leaves it.
ONE_READING_SPREAD = 0.06
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
    """The bursts that `cook.next_burst` would ask for if every reading came as expected.

    Five at most. Every burst starts from a state that has been read, and from the second one on
    the power is known as well as one reading at the gel teaches it. The last one's `after` falls
    short of the target where the limit allows no more.
    """
    found: list[Round] = []
    state = start
    while len(found) < MOST_ROUNDS:
        held = Held(state, cup, oven, np.zeros_like(oven.power_w))
        move = heating(held, target_c=target_c, limit_c=limit_c)
        if move.do is not Next.HEAT:
            break
        found.append(Round(move.for_s, state, move.hot, move.after, move.limited))
        state, oven = _as_read(move.after, oven), _as_learned(oven)
        state = cups.advance(state, cup, oven, HANDLING_S, on=False)
        if warm_enough(state.mean_c, target_c):
            break
    return tuple(found)


def next_bursts(
    cup: Cup, oven: Oven, *, readings_c: tuple[float, ...], target_c: float, limit_c: float
) -> tuple[NextBurst, ...]:
    """For each reading while stirring, the seconds that reach the target: the table for paper.

    A row is `limited` where the hottest place would come too near its limit first; its seconds
    then end there. Rows run at once.
    """
    start = _read_states(oven, readings_c)
    state = cups.advance(start, cup, oven, HEATS_AFTER_S, on=False)
    reached = np.where(state.mean_c >= target_c + AIM_K, 0.0, np.inf)
    limit_s = np.full(len(readings_c), np.inf)
    at = HEATS_AFTER_S
    while at < LONGEST_S:
        lit = cups.advance(state, cup, oven, STEP_S, on=True, step_s=STEP_S)
        at += STEP_S
        ends = cups.advance(lit, cup, oven, REST_S, on=False, step_s=REST_S / 2).mean_c
        reached = np.where((ends >= target_c + AIM_K) & np.isinf(reached), at, reached)
        drawn = lit.hottest_c[:, 1:]
        over = lit.hottest_c[:, 0] + HOT_DEVIATIONS * drawn.std(axis=1) > limit_c - HOT_MARGIN_K
        limit_s = np.where(over & np.isinf(limit_s), at - STEP_S, limit_s)
        slow = (np.isinf(reached).mean(axis=1) > 0.04) | np.isinf(reached[:, 0])
        if not (slow & np.isinf(limit_s)).any():
            break
        state = lit
    rows = zip(readings_c, reached, limit_s, strict=True)
    return tuple(_row(reads, times, float(end)) for reads, times, end in rows)


def _row(reads_c: float, reached_s: Array, limit_s: float) -> NextBurst:
    end = min(limit_s, LONGEST_S)
    times = np.minimum(reached_s, end if end > HEATS_AFTER_S else 0.0)
    low, high = np.quantile(times[1:], [0.05, 0.95])
    typical = float(times[0])
    return NextBurst(
        reads_c=reads_c,
        on_s=typical,
        low_s=min(float(low), typical),
        high_s=max(float(high), typical),
        limited=bool(reached_s[0] > end),
    )


def _as_read(state: State, oven: Oven) -> State:
    """A stirred state that has just been read: its spread is that of the reading."""
    read_c = float(cups.stirring_reading(state, oven)[0])
    mean = mean_behind(read_c - oven.reading_bias_k, oven.film_k)
    return replace(state, mean_c=mean)


def _as_learned(oven: Oven) -> Oven:
    """The oven once a reading at the gel was taken: its power no longer in wide doubt."""
    log = np.log(oven.power_w / oven.power_w[0])
    spread = float(log[1:].std())
    if spread <= ONE_READING_SPREAD:
        return oven
    return replace(oven, power_w=oven.power_w[0] * np.exp(log * ONE_READING_SPREAD / spread))


def _read_states(oven: Oven, readings_c: tuple[float, ...]) -> State:
    reads = np.array(readings_c)[:, None]
    mean = mean_behind(reads - oven.reading_bias_k, oven.film_k)
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
