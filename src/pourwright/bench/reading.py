"""A reading at the bench as a round of its cup."""

from __future__ import annotations

from pourwright.bench.clock import seconds_between
from pourwright.bench.cup_story import Entry
from pourwright.bench.pour import Burst, Pour
from pourwright.bench.tap_body import CupRead
from pourwright.heat.history import LONGEST_REST_S, Did, Step


def reading_entry(pour: Pour, body: CupRead, *, id: str, at: str) -> Entry | None:
    """The round a reading closes; none where its screen belongs to a moment that has passed.

    With a burst before it the round counts from the oven's start; the cup is stirred as it is
    read.
    """
    cup = pour.cups.get(body.cup)
    if cup is None or cup.over:
        return None
    story = pour.stories.get(body.cup)
    newest = cup.burst.id if cup.burst else (story.newest if story else "")
    if body.after is not None and body.after != newest:
        return None
    if cup.burst is None:
        return Entry(id, at, (_stirred(0.0), _read(body, 0.0)))
    heated = _heated_s(cup.burst, at)
    waited = seconds_between(cup.burst.began, at) - heated
    ended = heated + min(max(waited, 0.0), LONGEST_REST_S)
    heat = Step(did=Did.HEATED, at_s=0.0, for_s=heated)
    return Entry(id, cup.burst.began, (heat, _stirred(ended), _read(body, ended)))


def _heated_s(burst: Burst, at: str) -> float:
    """How long the oven ran: to its end, or to where it was stopped or read."""
    stopped = seconds_between(burst.began, burst.ended or at)
    return max(1.0, min(burst.for_s, stopped))


def _stirred(at_s: float) -> Step:
    return Step(did=Did.STIRRED, at_s=at_s)


def _read(body: CupRead, at_s: float) -> Step:
    return Step(
        did=Did.READ, at_s=at_s, read_c=body.read_c, instrument=body.instrument, while_stirring=True
    )
