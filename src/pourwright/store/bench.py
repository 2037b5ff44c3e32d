"""One unit of work: everything in it is kept together, or nothing."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from types import TracebackType
from typing import Self

from sqlalchemy import Engine

from pourwright.actions.port import Clock, Ids
from pourwright.store.ledger import SqlLedger
from pourwright.store.open import READING
from pourwright.store.paper import SqlPapers
from pourwright.store.record import SqlRecords
from pourwright.store.sheet import SqlPhotos, SqlSheets
from pourwright.store.stock import SqlStock


class SqlBench:
    """A unit of work on the store; one that is only for reading holds nobody up."""

    records: SqlRecords
    ledger: SqlLedger
    stock: SqlStock
    sheets: SqlSheets
    photos: SqlPhotos
    papers: SqlPapers

    def __init__(self, engine: Engine, clock: Clock, ids: Ids, *, reading: bool = False) -> None:
        self._engine = engine
        self._reading = reading
        self._clock = clock
        self._ids = ids

    def __enter__(self) -> Self:
        self._connection = self._engine.connect().execution_options(**{READING: self._reading})
        self.ledger = SqlLedger(self._connection, self._clock)
        self.records = SqlRecords(self._connection, self.ledger, self._clock, self._ids)
        self.stock = SqlStock(self._connection, self.ledger, self._ids)
        self.sheets = SqlSheets(self._connection, self.ledger, self._ids)
        self.photos = SqlPhotos(self._connection)
        self.papers = SqlPapers(self._connection, self.ledger, self._ids)
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._connection.rollback()
        self._connection.close()

    @contextmanager
    def together(self) -> Iterator[None]:
        """Part of the unit of work: where it raises, nothing of that part stays."""
        with self._connection.begin_nested():
            yield

    def commit(self) -> None:
        """Keep everything done since the unit of work was opened."""
        if self._reading:
            raise RuntimeError("a unit of work that only reads keeps nothing")
        self._connection.commit()
