"""A pour day with too few microwave hours, split over several days that each are laid out."""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pourwright.actions.port import Bench, World
from pourwright.actions.pour_day_cups import cups_of_day
from pourwright.actions.pour_day_lay import day_input, kept_day, laid, open_table
from pourwright.actions.pour_day_room import hours, needs_s, room_s
from pourwright.base.errors import Conflict, NoAnswer
from pourwright.plan.day.split_days import (
    CupPlace,
    SplitCup,
    SplitDay,
    SplitInput,
    split_days,
)
from pourwright.shop.pour_day import MOST_BATCHES, PourBatch, PourDay, Remark

MOST_DAYS = 12


@dataclass(frozen=True, slots=True)
class DayShare:
    """What is poured on one of the days, why there, and why a batch of it is not whole."""

    day: str
    batches: tuple[PourBatch, ...]
    titles: tuple[str, ...]
    used_s: int
    torn: tuple[str, ...]
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Piece:
    """A batch, or what of it is poured on one day; `torn` says why it is no whole batch."""

    batch: PourBatch
    title: str
    microwave_s: int
    shade: int
    torn: str = ""


def split_pour_day(world: World, id: str) -> tuple[str, ...]:
    """The ids of the days: the first keeps its own batches, a new one is made for each other.

    All are kept, or none. Raises: NotFound; Conflict for a day that is frozen, not laid out, taken
    off or short enough; NoAnswer where no number of days has room.
    """
    with world.reading() as bench:
        kept = kept_day(bench, id)
        if kept.retired:
            raise Conflict("this pour day was taken off before")
        shares = day_shares(bench, kept.day)
        if not shares:
            raise Conflict("its microwaves have hours enough: there is nothing to split")
        days = [_laid(bench, kept.day, share) for share in shares]
    ids = (kept.id, *(world.ids.fresh() for _ in days[1:]))
    with world.bench() as bench:
        for key, day in zip(ids, days, strict=True):
            version = kept.version if key == kept.id else 0
            bench.records.save(PourDay.key, key, day, expected_version=version)
        bench.commit()
    return ids


def day_shares(bench: Bench, day: PourDay) -> tuple[DayShare, ...]:
    """What to pour on which day, due sooner first; none where the day has hours enough.

    A batch stays whole unless its own cups need more than a day has. Days with another pour day
    are passed over. Raises: as `split_pour_day`, and as `cups_of_day`.
    """
    table = open_table(day)
    needs = needs_s(day, table.cups, day_input(bench, day, table.cups))
    if sum(needs) <= room_s(day):
        return ()
    first = {c.batch: c for c in reversed(table.cups)}
    pieces = [
        piece
        for i, (batch, need) in enumerate(zip(day.batches, needs, strict=True))
        for piece in _pieces(bench, day, _Piece(batch, first[i].title, need, first[i].shade))
    ]
    dates = _dates(bench, day)
    places = _placed(day, pieces, dates)
    used = sorted({p.day for p in places if p.day is not None})
    return tuple(_share(day, dates[n - 1], n, pieces, places) for n in used)


def _pieces(bench: Bench, day: PourDay, whole: _Piece) -> Iterator[_Piece]:
    """The batch, or as many of its baits to each day as the microwaves have hours for."""
    if whole.microwave_s <= room_s(day):
        yield whole
        return
    most = _most_baits(bench, day, whole)
    count = whole.batch.count
    parts = [min(most, count - done) for done in range(0, count, most)]
    torn = (
        f"{whole.title} is torn over {len(parts)} days: its own cups need "
        f"{hours(whole.microwave_s)} of microwave, and a day has {hours(room_s(day))}"
    )
    for i, baits in enumerate(parts, 1):
        part = f"part {i} of {len(parts)}"
        why = f"{whole.batch.why[:270]}, {part}" if whole.batch.why else part
        batch = dataclasses.replace(whole.batch, count=baits, why=why)
        title = f"{whole.title}, {part}, {baits} baits"
        yield _Piece(batch, title, _need_s(bench, day, batch), whole.shade, torn)


def _most_baits(bench: Bench, day: PourDay, whole: _Piece) -> int:
    """The most baits of a batch that the microwaves have hours for on one day."""
    fits, too_many = 0, whole.batch.count
    while too_many - fits > 1:
        middle = (fits + too_many) // 2
        need = _need_s(bench, day, dataclasses.replace(whole.batch, count=middle))
        fits, too_many = (middle, too_many) if need <= room_s(day) else (fits, middle)
    if not fits:
        raise NoAnswer(
            f"{whole.title}: even a single bait runs the microwave for longer than the "
            f"{hours(room_s(day))} of a day: give the day more microwave hours"
        )
    return fits


def _need_s(bench: Bench, day: PourDay, batch: PourBatch) -> int:
    alone = dataclasses.replace(day, batches=(batch,), timetable=None)
    cups = cups_of_day(bench, alone).cups
    return sum(needs_s(alone, cups, day_input(bench, alone, cups)))


def _dates(bench: Bench, day: PourDay) -> list[str]:
    """The day itself and the next days of the calendar that have no pour day yet."""
    others = (s.noun for s in bench.records.all(PourDay.key))
    taken = {it.day for it in others if isinstance(it, PourDay)}
    first = dt.date.fromisoformat(day.day)
    later = (
        (first + dt.timedelta(days=i)).isoformat() for i in range(1, MOST_DAYS + len(taken) + 1)
    )
    return [day.day, *(it for it in later if it not in taken)][:MOST_DAYS]


def _placed(day: PourDay, pieces: Sequence[_Piece], dates: Sequence[str]) -> tuple[CupPlace, ...]:
    """Where each piece goes; it is moved as a cup is that cannot be divided."""
    room_h = day.microwave_h * day.microwaves
    found = split_days(
        SplitInput(
            cups=tuple(
                SplitCup(
                    name=str(i), microwave_s=it.microwave_s, shade=it.shade,
                    due_day=_due_day(day, it.batch, dates),
                )
                for i, it in enumerate(pieces)
            ),
            days=tuple(SplitDay(name=it, microwave_h=room_h) for it in dates),
            most_cups=MOST_BATCHES,
        )
    )  # fmt: skip
    lost = [it.title for it, p in zip(pieces, found.places, strict=True) if p.day is None]
    if lost:
        raise NoAnswer(
            f"{len(dates)} days are too few for {', '.join(lost)}: give each day more microwave "
            "hours, or pour fewer"
        )
    return found.places


def _due_day(day: PourDay, batch: PourBatch, dates: Sequence[str]) -> int | None:
    """Number of the last day by which a batch is needed; a time of day means the day itself."""
    due = day.day if batch.needed_at else batch.due_on
    return max(1, sum(it <= due for it in dates)) if due else None


def _share(
    day: PourDay, date: str, number: int, pieces: Sequence[_Piece], places: Sequence[CupPlace]
) -> DayShare:
    mine = [(it, p) for it, p in zip(pieces, places, strict=True) if p.day == number]
    torn = dict.fromkeys(f"{it.torn}." for it, _ in mine if it.torn)
    moved = (f"{it.title}: {p.why}." for it, p in mine if number > 1)
    return DayShare(
        date,
        tuple(_moved(it.batch, day, date) for it, _ in mine),
        tuple(it.title for it, _ in mine),
        sum(it.microwave_s for it, _ in mine),
        tuple(torn),
        tuple(moved),
    )


def _moved(batch: PourBatch, day: PourDay, date: str) -> PourBatch:
    """A batch on its day; the time at which it was needed is of the day it comes from."""
    if date == day.day or not batch.needed_at:
        return batch
    return dataclasses.replace(batch, needed_at="", due_on=day.day)


def _laid(bench: Bench, day: PourDay, share: DayShare) -> PourDay:
    """One of the days, laid out by itself, with the reasons among its remarks."""
    made = laid(
        bench, dataclasses.replace(day, day=share.day, batches=share.batches, timetable=None)
    )
    table = open_table(made)
    why = f"Split from the pour day of {day.day} for want of microwave hours."
    words = (why, *share.torn, *share.reasons, *_shared_remelt(day))
    remarks = (*table.remarks, *(Remark(words=w) for w in words))
    return dataclasses.replace(made, timetable=dataclasses.replace(table, remarks=remarks))


def _shared_remelt(day: PourDay) -> Iterator[str]:
    if day.remelt and any(batch.takes_remelt for batch in day.batches):
        yield "Each of the days counts on the whole remelt pot: look what is left of it."
