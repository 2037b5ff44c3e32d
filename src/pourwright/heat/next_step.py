"""What to do next with a cup: heat how long, wait how long, read again, or pour."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

from pourwright.base.draws import Array
from pourwright.heat import cup as cups
from pourwright.heat.cup import MEAN, State
from pourwright.heat.standing import Held, after_burst
from pourwright.matter.gelation import GEL_ONSET_C

LONGEST_S = 420.0
SHORTEST_S = 7.0
# A little above the target: a cup too warm cools by itself, one too cold costs a round.
AIM_K = 1.6
STEP_S = 5.0
REST_S = 15.0
# The mean may end so far from the target and count as there.
CLOSE_K, SHORT_K = 1.8, 0.4
# Where a thermometer leaves more doubt than that, a shorter way to the target is no gain.
SHORT_DEVIATIONS = 0.8
LOOK_COSTS_K = 0.7
# The hottest place stays under its limit with this many standard deviations to spare, and with what
# a poor stir may leave of a hot place.
HOT_DEVIATIONS, HOT_MARGIN_K = 3.0, 1.5
# Where the rise is in doubt it may pass the target by so much, with this many to spare. What the
# thermometer may be off shifts start and end alike, and no shorter burst would help.
OVERSHOOT_K, OVERSHOOT_DEVIATIONS = 3.0, 1.3
GEL_DEVIATIONS = 1.3
# A burst cut short that gains less than this by the time it is stirred heats the glass alone.
LEAST_GAIN_K = 0.5
# Colder than this a cup is first heated to the gel, to stir the resin up and to learn the power.
COLD_C = 45.0
LONGEST_WAIT_S = 300.0
READY_FUSED = 0.85


class Next(StrEnum):
    """What to do."""

    HEAT = "heat"
    WAIT = "wait"
    STIR_AND_READ = "stir and read"
    READ_AGAIN = "read again"
    READ_ONCE_MORE = "read once more"
    POUR = "pour"
    STOP = "stop"


@dataclass(frozen=True, slots=True)
class Move:
    """What to do for how long; `hot` at its end, `after` once rested and stirred.

    `limited` where the hot limit cut it short or asks to wait; `gel_stop` where it ends as the gel
    begins; `begins_s` until the oven runs.
    """

    do: Next
    for_s: float
    hot: State
    after: State
    limited: bool = False
    gel_stop: bool = False
    begins_s: float = 0.0


def next_move(
    now: Held, *, target_c: float, limit_c: float, handling_s: float, looked_twice: bool
) -> Move:
    """The move from a cup that was stirred and read last.

    A burst begins once the cup is back in the oven. What a second look cost in heat is no reason
    to heat once more.
    """
    mean = now.state.mean_c
    best = float(mean[0])
    fused = float(now.state.fused[MEAN, 0])
    if best > target_c + CLOSE_K + (0.0 if looked_twice else LOOK_COSTS_K):
        return _waiting(now, target_c)
    allowed = target_c - LOOK_COSTS_K if looked_twice else target_c
    if warm_enough(mean, allowed) and fused >= READY_FUSED:
        return Move(Next.POUR, 0.0, now.state, now.state)
    if _deviation(now.state.hottest_c, HOT_DEVIATIONS) > limit_c + CLOSE_K:
        return replace(_waiting(now, target_c), limited=True)
    cooled = cups.advance(now.state, now.cup, now.oven, handling_s, on=False)
    move = heating(replace(now, state=cooled), target_c=target_c, limit_c=limit_c)
    return replace(move, begins_s=handling_s) if move.do is Next.HEAT else move


def warm_enough(mean_c: Array, target_c: float) -> bool:
    """Whether a mean, as well as it is known, may count as on the target or above."""
    return float(mean_c[0]) >= target_c - max(SHORT_K, SHORT_DEVIATIONS * _spread(mean_c))


def heating(now: Held, *, target_c: float, limit_c: float) -> Move:
    """The longest burst that target and limit allow; a stop where they allow none.

    A cold cup is heated to where the gel begins. The end is that of the rested, stirred cup.
    """
    gel_c = GEL_ONSET_C.typical
    gel_stop = float(now.state.mean_c[0]) < COLD_C
    cold = cups.HEATS_AFTER_S
    state = cups.advance(now.state, now.cup, now.oven, cold, on=False)
    at, limited, step_s = cold, False, STEP_S
    while at < LONGEST_S:
        further = cups.advance(state, now.cup, now.oven, step_s, on=True, step_s=step_s)
        ends = _rested(now, further).mean_c
        rise = ends - now.state.mean_c
        past = (gel_stop and _deviation(ends, GEL_DEVIATIONS) > gel_c) or (
            float(ends[0]) + OVERSHOOT_DEVIATIONS * _spread(rise) > target_c + OVERSHOOT_K
        )
        limited = (
            not past and _deviation(further.hottest_c, HOT_DEVIATIONS) > limit_c - HOT_MARGIN_K
        )
        if past or limited:
            if step_s <= 1:
                break
            step_s = 1.0
            continue
        state, at = further, at + step_s
        if float(ends[0]) >= target_c + AIM_K:
            break
    at = _trimmed(now, state, at, target_c + AIM_K)
    shortest = at < SHORTEST_S
    at = max(at, SHORTEST_S)
    hot, after = after_burst(now, at, REST_S)
    after = replace(after, mean_c=after.mean_c + now.mixing_k)
    if shortest and (limited or _deviation(hot.hottest_c, HOT_DEVIATIONS) > limit_c - HOT_MARGIN_K):
        return _stuck(now, target_c)
    if limited and float(after.mean_c[0] - now.state.mean_c[0]) < LEAST_GAIN_K:
        return _stuck(now, target_c)
    return Move(Next.HEAT, at, hot, after, limited=limited, gel_stop=gel_stop)


def _trimmed(now: Held, state: State, at: float, aim_c: float) -> float:
    """Whole seconds that end on the aim, where the last step went past it."""
    end = float(_rested(now, state).mean_c[0])
    before = float(_rested(now, now.state).mean_c[0])
    if end <= aim_c or end <= before:
        return at
    lit = (at - cups.HEATS_AFTER_S) * (aim_c - before) / (end - before)
    return float(max(1.0, round(cups.HEATS_AFTER_S + lit)))


def _stuck(now: Held, target_c: float) -> Move:
    """No burst is safe: if close, pour; else let the hot spot even out and stir."""
    if float(now.state.mean_c[0]) > target_c - 4 and float(now.state.fused[MEAN, 0]) > READY_FUSED:
        return Move(Next.POUR, 0.0, now.state, now.state, limited=True)
    return Move(Next.STOP, 0.0, now.state, now.state, limited=True)


def _waiting(now: Held, target_c: float) -> Move:
    state, at = now.state, 0.0
    while at < LONGEST_WAIT_S and float(state.mean_c[0]) > target_c + 0.5:
        state = cups.advance(state, now.cup, now.oven, STEP_S, on=False, step_s=STEP_S)
        at += STEP_S
    return Move(Next.WAIT, max(at, 2 * STEP_S), now.state, cups.stirred(state))


def _rested(now: Held, state: State) -> State:
    """After the rest: a hot cup gives its glass a kelvin or two meanwhile."""
    return cups.advance(state, now.cup, now.oven, REST_S, on=False, step_s=REST_S / 2)


def _deviation(values: Array, deviations: float) -> float:
    return float(values[0]) + deviations * _spread(values)


def _spread(values: Array) -> float:
    return float(values[1:].std())
