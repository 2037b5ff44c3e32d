"""The append-only events, each carrying a hash over the one before."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Sequence
from typing import Any

from sqlalchemy import ColumnElement, Connection, RowMapping, bindparam, func, insert, select

from pourwright.actions.port import Clock, Event, Recorded
from pourwright.base.errors import Conflict
from pourwright.store.codec import canonical
from pourwright.store.reads import Reads
from pourwright.store.table import EVENT

GENESIS = "0" * 64
_KNOWN = select(EVENT).where(EVENT.c.id == bindparam("id"))
_NEWEST = select(EVENT.c.place, EVENT.c.hash).order_by(EVENT.c.place.desc()).limit(1)
_KEPT = insert(EVENT)
_NEWEST_OF = select(func.max(EVENT.c.place)).where(EVENT.c.subject == bindparam("subject"))
# What was told of a subject up to its newest event, whose hash vouches for all before it.
_TOLD: Reads[tuple[str, str], tuple[Recorded, ...]] = Reads(4000)


def chained_hash(previous: str, event: Event) -> str:
    """SHA-256 over the hash before and the event's content."""
    content = [previous, event.id, event.subject, event.kind, event.at, event.body]
    return hashlib.sha256(canonical(content).encode()).hexdigest()


class SqlLedger:
    """Events in the store."""

    def __init__(self, connection: Connection, clock: Clock) -> None:
        self._connection = connection
        self._clock = clock

    def append(self, event: Event) -> Recorded:
        """Store an event once. Raises: Conflict if the id is known with other content."""
        row = self._connection.execute(_KNOWN, {"id": event.id}).mappings().first()
        if row is not None:
            recorded = _recorded(row)
            if canonical(_content(recorded.event)) != canonical(_content(event)):
                raise Conflict(f"the event {event.id} is known with other content")
            return recorded
        last = self._connection.execute(_NEWEST).first()
        place, previous = (last.place + 1, last.hash) if last else (1, GENESIS)
        recorded = Recorded(
            place, event, self._clock.now(), previous, chained_hash(previous, event)
        )
        self._connection.execute(_KEPT, _row(recorded))
        return recorded

    def of(self, subject: str) -> tuple[Recorded, ...]:
        """What happened to a subject, oldest first."""
        return self._told(EVENT.c.subject == subject).get(subject, ())

    def of_each(self, begins: str) -> dict[str, tuple[Recorded, ...]]:
        """What happened to every subject whose name begins so, oldest first."""
        after = begins[:-1] + chr(ord(begins[-1]) + 1)
        return self._told((EVENT.c.subject >= begins) & (EVENT.c.subject < after))

    def of_kind(self, *kinds: str, since: str = "", before: str = "") -> tuple[Recorded, ...]:
        """Everything of these kinds that happened from `since` on and before `before`, both UTC."""
        found = select(EVENT).where(EVENT.c.kind.in_(kinds)).order_by(EVENT.c.place)
        found = found.where(EVENT.c.at >= since) if since else found
        found = found.where(EVENT.c.at < before) if before else found
        return tuple(_recorded(r) for r in self._connection.execute(found).mappings())

    def _told(self, wanted: ColumnElement[bool]) -> dict[str, tuple[Recorded, ...]]:
        newest = select(func.max(EVENT.c.place)).where(wanted).group_by(EVENT.c.subject)
        marks = select(EVENT.c.subject, EVENT.c.hash).where(EVENT.c.place.in_(newest))
        keys = [(row.subject, row.hash) for row in self._connection.execute(marks)]
        return {subject: told for (subject, _), told in _TOLD.of(keys, self._read).items()}

    def _read(self, keys: Sequence[tuple[str, str]]) -> dict[tuple[str, str], tuple[Recorded, ...]]:
        found: dict[str, list[Recorded]] = {subject: [] for subject, _ in keys}
        query = select(EVENT).where(EVENT.c.subject.in_(found)).order_by(EVENT.c.place)
        for row in self._connection.execute(query).mappings():
            found[row["subject"]].append(_recorded(row))
        return {key: tuple(found[key[0]]) for key in keys}

    def newest(self, subject: str) -> int:
        """The place of the newest event of a subject; 0 where there is none."""
        return self._connection.execute(_NEWEST_OF, {"subject": subject}).scalar() or 0

    def check(self) -> int:
        """Events verified. Raises: Conflict naming the first that does not fit."""
        previous, place = GENESIS, 0
        for row in self._connection.execute(select(EVENT).order_by(EVENT.c.place)).mappings():
            it = _recorded(row)
            place += 1
            fits = it.place == place and it.previous_hash == previous
            if not fits or it.hash != chained_hash(previous, it.event):
                raise Conflict(f"event {it.place} does not fit the chain: the store was altered")
            previous = it.hash
        return place


def _content(event: Event) -> list[Any]:
    return [event.subject, event.kind, event.at, event.body]


def _row(recorded: Recorded) -> dict[str, Any]:
    event = recorded.event
    return {
        "place": recorded.place,
        "id": event.id,
        "subject": event.subject,
        "kind": event.kind,
        "at": event.at,
        "stored_at": recorded.stored_at,
        "body": canonical(event.body),
        "previous_hash": recorded.previous_hash,
        "hash": recorded.hash,
    }


def _recorded(row: RowMapping) -> Recorded:
    event = Event(row["id"], row["subject"], row["kind"], row["at"], json.loads(row["body"]))
    return Recorded(row["place"], event, row["stored_at"], row["previous_hash"], row["hash"])
