"""The pour day that runs, in a line for other pages."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.port import Bench
from pourwright.actions.pour_day_follow import pour_day_now
from pourwright.shop.mold import Mold
from pourwright.web.pour_day_view import running_view


@dataclass(frozen=True, slots=True)
class DayHint:
    """What is next by the timetable, how it runs, and where it stands in full."""

    address: str
    next: str
    next_at: str
    slip: str


def day_hint(bench: Bench, now: str) -> DayHint | None:
    """The pour day that runs or is about to; none on another day."""
    found = pour_day_now(bench, now)
    if found is None:
        return None
    running = running_view(found, mold_names(bench))
    return DayHint(f"/pour-day/{found.id}", running.next, running.next_at, running.slip)


def mold_names(bench: Bench) -> dict[str, str]:
    """What every mold is called, those off the bench among them, by id."""
    return {s.id: s.noun.name for s in bench.records.all(Mold.key, retired=True)}
