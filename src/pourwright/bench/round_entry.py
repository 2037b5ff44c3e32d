"""What a person enters after a round at the cup, and the steps it stands for."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.errors import BadInput
from pourwright.base.field import flag, number, pick
from pourwright.base.record import Record
from pourwright.bench.clock import before, seconds_between
from pourwright.bench.cup_story import CupStory, Entry
from pourwright.heat.history import COLDEST_READ_C, HOTTEST_READ_C, Did, Instrument, Step
from pourwright.heat.next_step import REST_S

# Seconds by which two clocks may disagree before it matters.
_SLACK_S = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundEntry(Record):
    """One round. What was drawn or added comes before the burst, then rest, stir and reading."""

    heated_s: float = number("Heated for (or 1:25)", low=0, high=1200, default=0)
    stirred: bool = flag("Stirred from the bottom up", default=True)
    read_c: float | None = number(
        "Thermometer reads", low=COLDEST_READ_C, high=HOTTEST_READ_C, default=None
    )
    instrument: Instrument = pick("Read with", default=Instrument.INFRARED)
    while_stirring: bool = flag("Read while stirring", default=True)
    drawn_g: float | None = number("Drawn off before it", low=0.1, high=3000, default=None)
    added_g: float | None = number("Added before it", low=0.1, high=3000, default=None)
    added_c: float = number("Temperature of what was added", low=-10, high=200, default=22)
    late: bool = flag("From notes: it did not happen just now")
    rested_s: float = number("Rest before the stir", low=0, high=3600, default=REST_S)

    def check(self) -> None:
        """Refuse an entry that says nothing."""
        if not self.heated_s and self.read_c is None and not self.drawn_g and not self.added_g:
            why = "enter the seconds heated, a reading, or grams drawn or added"
            raise BadInput("heated_s", self.heated_s, why)


def entry(
    done: RoundEntry, *, id: str, now: str, started_ago_s: float | None, story: CupStory
) -> Entry:
    """The steps of a round that has just ended, on the clock.

    `started_ago_s` is how long ago the burst began, where a clock ran; without one it ended a
    usual rest ago. Raises: BadInput where the burst would have begun before the last entry ended,
    or would not be over yet.
    """
    if done.late:
        return Entry(id, now, _steps(done, None), late=True)
    usual = done.heated_s + (REST_S if done.heated_s else 0.0)
    ago = usual if started_ago_s is None else started_ago_s
    if ago < done.heated_s - _SLACK_S:
        why = f"is more than the {ago:.0f} s since the burst began"
        raise BadInput("heated_s", done.heated_s, why)
    whole = round(max(ago, done.heated_s))
    _refuse_overlap(story, before(now, whole), done.heated_s)
    return Entry(id, before(now, whole), _steps(done, float(whole)))


def _refuse_overlap(story: CupStory, began_at: str, heated_s: float) -> None:
    if not story.entries or story.entries[-1].late:
        return
    overlap = _ended_after(story.entries[-1], began_at)
    if overlap > _SLACK_S:
        why = (
            f"does not fit: the clock would run backwards by {overlap:.0f} s, since the entry "
            "before had not ended when this burst began. Correct the seconds, or tick "
            "“From notes”"
        )
        raise BadInput("heated_s", heated_s, why)


def _ended_after(last: Entry, began_at: str) -> float:
    ends = max((s.at_s or 0.0) + s.lasted_s for s in last.steps)
    return ends - seconds_between(last.at, began_at)


def _steps(done: RoundEntry, ended_s: float | None) -> tuple[Step, ...]:
    """The steps with clocks since the burst began; without clocks where `ended_s` is none."""
    start = None if ended_s is None else 0.0
    found: list[Step] = []
    if done.drawn_g:
        found.append(Step(did=Did.DRAWN, at_s=start, mass_g=done.drawn_g))
    if done.added_g:
        found.append(Step(did=Did.ADDED, at_s=start, mass_g=done.added_g, added_c=done.added_c))
    if done.heated_s:
        found.append(Step(did=Did.HEATED, at_s=start, for_s=done.heated_s))
        if ended_s is None and done.rested_s and (done.stirred or done.read_c is not None):
            found.append(Step(did=Did.RESTED, for_s=done.rested_s))
    if done.stirred:
        found.append(Step(did=Did.STIRRED, at_s=ended_s))
    if done.read_c is not None:
        found.append(
            Step(
                did=Did.READ, at_s=ended_s, read_c=done.read_c, instrument=done.instrument,
                while_stirring=done.while_stirring,
            )
        )  # fmt: skip
    return tuple(found)
