"""The ports in memory, written by hand: what a store promises, without a store."""

from __future__ import annotations

import copy
import dataclasses
import hashlib
import itertools
import json
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from types import TracebackType
from typing import Any, Self

from fake_stock import FakeStock
from pourwright.actions.port import Event, JobState, Progress, Recorded, Stored
from pourwright.base.errors import Conflict, NotFound
from pourwright.shop.move import Move
from pourwright.shop.noun import Noun
from pourwright.shop.paper_file import PaperFile
from pourwright.shop.sheet import Sheet
from pourwright.shop.stock_lot import StockLot
from pourwright.shop.stored_form import body_of


class FakeClock:
    """A clock that moves one second at every look."""

    def __init__(self) -> None:
        self._seconds = itertools.count()

    def now(self) -> str:
        minutes, seconds = divmod(next(self._seconds), 60)
        hours, minutes = divmod(minutes, 60)
        return f"2026-01-01T{hours:02}:{minutes:02}:{seconds:02}Z"

    def moment(self) -> str:
        return self.now().replace("Z", ".000Z")


class FakeIds:
    """Ids counted up."""

    def __init__(self) -> None:
        self._numbers = itertools.count(1)

    def fresh(self) -> str:
        return f"{next(self._numbers):032x}"


@dataclasses.dataclass
class Kept:
    """What the store holds."""

    records: dict[str, Stored] = dataclasses.field(default_factory=dict)
    events: list[Recorded] = dataclasses.field(default_factory=list)
    sheets: dict[int, Sheet] = dataclasses.field(default_factory=dict)
    photos: dict[str, bytes] = dataclasses.field(default_factory=dict)
    papers: dict[str, PaperFile] = dataclasses.field(default_factory=dict)
    lots: dict[str, StockLot] = dataclasses.field(default_factory=dict)
    moves: list[Move] = dataclasses.field(default_factory=list)

    def copied(self) -> Kept:
        return Kept(
            dict(self.records),
            list(self.events),
            copy.deepcopy(self.sheets),
            dict(self.photos),
            dict(self.papers),
            dict(self.lots),
            list(self.moves),
        )

    def become(self, other: Kept) -> None:
        """Hold what the other holds, in the same lists, which those who share them still see."""
        for it in dataclasses.fields(self):
            mine, its = getattr(self, it.name), getattr(other, it.name)
            mine.clear()
            mine.extend(its) if isinstance(mine, list) else mine.update(its)


class FakeLedger:
    def __init__(self, kept: Kept, clock: FakeClock) -> None:
        self._kept, self._clock = kept, clock

    def append(self, event: Event) -> Recorded:
        for known in self._kept.events:
            if known.event.id == event.id:
                if known.event != event:
                    raise Conflict(f"the event {event.id} is known with other content")
                return known
        previous = self._kept.events[-1].hash if self._kept.events else ""
        place = len(self._kept.events) + 1
        recorded = Recorded(place, event, self._clock.now(), previous, _linked(previous, event))
        self._kept.events.append(recorded)
        return recorded

    def of(self, subject: str) -> tuple[Recorded, ...]:
        return tuple(e for e in self._kept.events if e.event.subject == subject)

    def of_each(self, begins: str) -> dict[str, tuple[Recorded, ...]]:
        subjects = {e.event.subject: None for e in self._kept.events}
        return {s: self.of(s) for s in subjects if s.startswith(begins)}

    def of_kind(self, *kinds: str, since: str = "", before: str = "") -> tuple[Recorded, ...]:
        return tuple(
            e for e in self._kept.events
            if e.event.kind in kinds and e.event.at >= since and (not before or e.event.at < before)
        )  # fmt: skip

    def newest(self, subject: str) -> int:
        return max((e.place for e in self._kept.events if e.event.subject == subject), default=0)

    def check(self) -> int:
        previous = ""
        for it in self._kept.events:
            if it.previous_hash != previous or it.hash != _linked(previous, it.event):
                raise Conflict(f"event {it.place} does not fit the chain: the store was altered")
            previous = it.hash
        return len(self._kept.events)


class FakeRecords:
    def __init__(self, kept: Kept, ledger: FakeLedger, clock: FakeClock, ids: FakeIds) -> None:
        self._kept, self._ledger, self._clock, self._ids = kept, ledger, clock, ids

    def get(self, sort: str, id: str) -> Stored:
        found = self._kept.records.get(id)
        if found is None or found.sort != sort:
            raise NotFound(f"there is no {sort} {id!r} on the bench")
        return found

    def all(self, sort: str, *, retired: bool = False) -> tuple[Stored, ...]:
        found = [s for s in self._kept.records.values() if s.sort == sort]
        shown = [s for s in found if retired or not s.retired]
        return tuple(sorted(shown, key=lambda s: (s.noun.name, s.id)))

    def save(self, sort: str, id: str, noun: Noun, *, expected_version: int) -> Stored:
        known = self._kept.records.get(id)
        if known is not None and known.sort != sort:
            raise Conflict(f"the id {id!r} belongs to a {known.sort} already")
        return self._put("saved", sort, id, noun, expected_version)

    def retire(self, sort: str, id: str, *, expected_version: int) -> Stored:
        return self._put("retired", sort, id, self.get(sort, id).noun, expected_version)

    def _put(self, kind: str, sort: str, id: str, noun: Noun, expected: int) -> Stored:
        known = self._kept.records.get(id)
        version = known.version if known else 0
        if version != expected:
            raise Conflict(f"the {sort} {id!r} is at version {version}, not {expected}")
        stored = Stored(id, sort, version + 1, self._clock.now(), kind == "retired", noun)
        self._kept.records[id] = stored
        body = {"version": stored.version, "content": body_of(noun)}
        event = Event(self._ids.fresh(), f"{sort}/{id}", kind, stored.changed_at, body)
        self._ledger.append(event)
        return stored


class FakeSheets:
    def __init__(self, kept: Kept, ledger: FakeLedger, ids: FakeIds) -> None:
        self._kept, self._ledger, self._ids = kept, ledger, ids

    def next_number(self) -> int:
        return max(self._kept.sheets, default=0) + 1

    def add(self, sheet: Sheet) -> None:
        codes = {s.code for s in self._kept.sheets.values()}
        if sheet.number in self._kept.sheets or sheet.code in codes:
            raise Conflict(f"sheet {sheet.number} is frozen already")
        self._kept.sheets[sheet.number] = copy.deepcopy(sheet)
        body = {
            name: getattr(sheet, name)
            for name in ("code", "version", "title", "draft", "request", "plan")
        }
        subject = f"sheet/{sheet.number}"
        self._ledger.append(Event(self._ids.fresh(), subject, "frozen", sheet.frozen_at, body))

    def get(self, number: int) -> Sheet:
        if number not in self._kept.sheets:
            raise NotFound(f"there is no sheet {number}")
        return copy.deepcopy(self._kept.sheets[number])

    def of_code(self, code: str) -> Sheet:
        numbers = [n for n, s in self._kept.sheets.items() if s.code == code]
        if not numbers:
            raise NotFound(f"no sheet carries the code {code!r}")
        return self.get(numbers[0])

    def all(self) -> tuple[Sheet, ...]:
        return tuple(self.get(n) for n in sorted(self._kept.sheets, reverse=True))


class FakePhotos:
    def __init__(self, kept: Kept) -> None:
        self._kept = kept

    def add(self, id: str, jpeg: bytes) -> None:
        self._kept.photos.setdefault(id, jpeg)

    def get(self, id: str) -> bytes:
        if id not in self._kept.photos:
            raise NotFound(f"there is no picture {id!r}")
        return self._kept.photos[id]


class FakePapers:
    def __init__(self, kept: Kept, ledger: FakeLedger, ids: FakeIds) -> None:
        self._kept, self._ledger, self._ids = kept, ledger, ids

    def add(self, file: PaperFile, *, at: str) -> None:
        if file.id not in self._kept.papers:
            self._kept.papers[file.id] = file
            body = {"media_type": file.media_type}
            event = Event(self._ids.fresh(), f"paper/{file.id}", "paper_kept", at, body)
            self._ledger.append(event)

    def get(self, id: str) -> PaperFile:
        if id not in self._kept.papers:
            raise NotFound(f"there is no paper {id!r}")
        return self._kept.papers[id]


class FakeStore:
    """Makes units of work over one memory; each works on a copy until it commits."""

    def __init__(self) -> None:
        self.kept = Kept()
        self.clock = FakeClock()
        self.ids = FakeIds()

    def bench(self) -> FakeBench:
        return FakeBench(self)


class FakeBench:
    """One unit of work."""

    records: FakeRecords
    ledger: FakeLedger
    stock: FakeStock
    sheets: FakeSheets
    photos: FakePhotos
    papers: FakePapers

    def __init__(self, store: FakeStore) -> None:
        self._store = store

    def __enter__(self) -> Self:
        self._kept = self._store.kept.copied()
        clock, ids = self._store.clock, self._store.ids
        self.ledger = FakeLedger(self._kept, clock)
        self.records = FakeRecords(self._kept, self.ledger, clock, ids)
        self.stock = FakeStock(self._kept.lots, self._kept.moves, self.ledger, ids)
        self.sheets = FakeSheets(self._kept, self.ledger, ids)
        self.photos = FakePhotos(self._kept)
        self.papers = FakePapers(self._kept, self.ledger, ids)
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        pass

    @contextmanager
    def together(self) -> Iterator[None]:
        before = self._kept.copied()
        try:
            yield
        except BaseException:
            self._kept.become(before)
            raise

    def commit(self) -> None:
        self._store.kept = self._kept.copied()


class FakeJobs:
    """Runs a job on the spot."""

    def __init__(self) -> None:
        self._states: dict[str, JobState] = {}

    def start(
        self, name: str, data: Mapping[str, Any], work: Callable[[Progress], Mapping[str, Any]]
    ) -> JobState:
        key = hashlib.sha256(json.dumps([name, data], sort_keys=True).encode()).hexdigest()
        if key not in self._states:
            self._states[key] = JobState(key, name, "done", 1.0, work(_Unheard()), None)
        return self._states[key]

    def state(self, key: str) -> JobState:
        if key not in self._states:
            raise NotFound(f"there is no job {key!r}")
        return self._states[key]

    def cancel(self, key: str) -> JobState:
        return self.state(key)


class _Unheard:
    def at(self, share: float) -> None:
        assert 0 <= share <= 1


def _linked(previous: str, event: Event) -> str:
    content = [previous, event.id, event.subject, event.kind, event.at, event.body]
    return hashlib.sha256(json.dumps(content, sort_keys=True).encode()).hexdigest()
