"""The temperature line of a cup: its mean over time with a band, past and to come."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.band import Band
from pourwright.base.field import out
from pourwright.heat.course import bands
from pourwright.heat.cup import HEATS_AFTER_S
from pourwright.heat.next_step import REST_S, Move, Next
from pourwright.heat.replay import traced
from pourwright.heat.standing import Standing


@dataclass(frozen=True, slots=True)
class LinePoint:
    """The cup at one moment."""

    at_s: float = out("Since the first step")
    mean_c: Band = out("Mean of the plastic")
    to_come: bool = out("Whether this is a forecast")


def temperature_line(now: Standing, move: Move) -> tuple[LinePoint, ...]:
    """The past every twenty seconds and at every change, then what the move would bring."""
    trace = list(now.trace)
    past = len(trace)
    state = now.state
    if move.do is Next.HEAT:
        cold = move.begins_s + min(HEATS_AFTER_S, move.for_s)
        state = traced(trace, state, now.cup, now.oven, cold, on=False)
        state = traced(
            trace, state, now.cup, now.oven, max(move.for_s - HEATS_AFTER_S, 0.0), on=True
        )
        traced(trace, state, now.cup, now.oven, REST_S, on=False)
    elif move.do is Next.WAIT:
        traced(trace, state, now.cup, now.oven, move.for_s, on=False)
    found = bands([mean for _, mean in trace])
    return tuple(
        LinePoint(at, band, i >= past)
        for i, ((at, _), band) in enumerate(zip(trace, found, strict=True))
    )
