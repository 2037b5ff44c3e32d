"""Nouns in the store; every change is an event in the ledger, in the same transaction."""

from __future__ import annotations

import functools
import json

from sqlalchemy import Connection, RowMapping, bindparam, insert, select, update

from pourwright.actions.port import Clock, Event, Ids, Ledger, Stored
from pourwright.base.errors import Conflict, NotFound
from pourwright.shop.noun import Noun
from pourwright.shop.nouns import NOUNS
from pourwright.shop.stored_form import body_of, noun_of
from pourwright.store.codec import canonical
from pourwright.store.table import RECORD

SAVED, RETIRED = "saved", "retired"
# Built once: a page reads hundreds of records, and building the query took as long as running it.
_ONE = select(RECORD).where(RECORD.c.id == bindparam("id"), RECORD.c.sort == bindparam("sort"))
_ALL = select(RECORD).where(RECORD.c.sort == bindparam("sort")).order_by(RECORD.c.name, RECORD.c.id)
_STANDING = _ALL.where(RECORD.c.retired == 0)


class SqlRecords:
    """The bench's nouns."""

    def __init__(self, connection: Connection, ledger: Ledger, clock: Clock, ids: Ids) -> None:
        self._connection = connection
        self._ledger = ledger
        self._clock = clock
        self._ids = ids

    def get(self, sort: str, id: str) -> Stored:
        """One record. Raises: NotFound."""
        row = self._row(sort, id)
        if row is None:
            raise NotFound(f"there is no {sort.replace('_', ' ')} {id!r} on the bench")
        return _stored(row)

    def all(self, sort: str, *, retired: bool = False) -> tuple[Stored, ...]:
        """Every record of a sort, by name; the retired ones too where asked."""
        rows = self._connection.execute(_ALL if retired else _STANDING, {"sort": sort}).mappings()
        return tuple(_stored(r) for r in rows)

    def save(self, sort: str, id: str, noun: Noun, *, expected_version: int) -> Stored:
        """Add or change a record. Raises: Conflict if somebody changed it since."""
        if type(noun) is not NOUNS.named(sort, "sort"):
            raise TypeError(f"a {type(noun).__name__} is no {sort}")
        row = self._row(sort, id)
        if row is None:
            self._free(id)
        self._same(row, sort, id, expected_version)
        values = {
            "name": noun.name,
            "version": expected_version + 1,
            "changed_at": self._clock.now(),
            "retired": 0,
            "body": canonical(body_of(noun)),
        }
        if row is None:
            self._connection.execute(insert(RECORD).values(id=id, sort=sort, **values))
        else:
            self._connection.execute(update(RECORD).where(RECORD.c.id == id).values(**values))
        return self._noted(SAVED, sort, id)

    def retire(self, sort: str, id: str, *, expected_version: int) -> Stored:
        """Take a record off the lists. Raises: NotFound, Conflict."""
        row = self._row(sort, id)
        if row is None:
            raise NotFound(f"there is no {sort.replace('_', ' ')} {id!r} on the bench")
        self._same(row, sort, id, expected_version)
        values = {
            "retired": 1, "version": expected_version + 1, "changed_at": self._clock.now()
        }  # fmt: skip
        self._connection.execute(update(RECORD).where(RECORD.c.id == id).values(**values))
        return self._noted(RETIRED, sort, id)

    def _row(self, sort: str, id: str) -> RowMapping | None:
        return self._connection.execute(_ONE, {"id": id, "sort": sort}).mappings().first()

    def _free(self, id: str) -> None:
        other = self._connection.execute(select(RECORD.c.sort).where(RECORD.c.id == id)).scalar()
        if other is not None:
            raise Conflict(f"the id {id!r} belongs to a {other.replace('_', ' ')} already")

    def _same(self, row: RowMapping | None, sort: str, id: str, expected: int) -> None:
        found = row["version"] if row else 0
        if found != expected:
            raise Conflict(
                f"the {sort.replace('_', ' ')} {id!r} is at version {found}, not {expected}: "
                "it was changed since you opened it"
            )

    def _noted(self, kind: str, sort: str, id: str) -> Stored:
        stored = self.get(sort, id)
        body = {"version": stored.version, "content": body_of(stored.noun)}
        event = Event(self._ids.fresh(), f"{sort}/{id}", kind, stored.changed_at, body)
        self._ledger.append(event)
        return stored


@functools.lru_cache(maxsize=2048)
def _noun(sort: str, body: str) -> Noun:
    """Nouns are frozen, so that one stored form needs to be read only once."""
    return noun_of(sort, json.loads(body))


def _stored(row: RowMapping) -> Stored:
    noun = _noun(row["sort"], row["body"])
    return Stored(
        row["id"], row["sort"], row["version"], row["changed_at"], bool(row["retired"]), noun
    )
