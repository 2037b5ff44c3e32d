"""Frozen sheets and kept pictures."""

from __future__ import annotations

import json
from collections.abc import Sequence

from sqlalchemy import Connection, RowMapping, Select, func, insert, select

from pourwright.actions.port import Event, Ids, Ledger
from pourwright.base.errors import Conflict, NotFound
from pourwright.shop.sheet import Sheet
from pourwright.store.codec import canonical
from pourwright.store.reads import Reads
from pourwright.store.table import EVENT, PHOTO, SHEET

# A sheet never changes; reading its plan back takes a while.
_READ: Reads[str, Sheet] = Reads(1000)


class SqlSheets:
    """Sheets, kept for good."""

    def __init__(self, connection: Connection, ledger: Ledger, ids: Ids) -> None:
        self._connection = connection
        self._ledger = ledger
        self._ids = ids

    def next_number(self) -> int:
        """The number the next sheet will carry."""
        newest = self._connection.execute(select(func.max(SHEET.c.number))).scalar()
        return (newest or 0) + 1

    def add(self, sheet: Sheet) -> None:
        """Keep a sheet; the ledger takes its content. Raises: Conflict if the number is taken."""
        taken = select(SHEET.c.number).where(
            (SHEET.c.number == sheet.number) | (SHEET.c.code == sheet.code)
        )
        if self._connection.execute(taken).first():
            raise Conflict(f"sheet {sheet.number} is frozen already")
        body = {"draft": sheet.draft, "request": sheet.request, "plan": sheet.plan}
        event = Event(
            self._ids.fresh(), f"sheet/{sheet.number}", "frozen", sheet.frozen_at,
            {"code": sheet.code, "version": sheet.version, "title": sheet.title} | body,
        )  # fmt: skip
        self._ledger.append(event)
        values = {name: canonical(value) for name, value in body.items()}
        self._connection.execute(
            insert(SHEET).values(
                number=sheet.number, code=sheet.code, frozen_at=sheet.frozen_at,
                version=sheet.version, title=sheet.title, event_id=event.id, **values,
            )
        )  # fmt: skip

    def get(self, number: int) -> Sheet:
        """One sheet. Raises: NotFound."""
        found = self._found(_marks().where(SHEET.c.number == number))
        if not found:
            raise NotFound(f"there is no sheet {number}")
        return found[0]

    def of_code(self, code: str) -> Sheet:
        """The sheet of a lot. Raises: NotFound."""
        found = self._found(_marks().where(SHEET.c.code == code))
        if not found:
            raise NotFound(f"no sheet carries the code {code!r}")
        return found[0]

    def all(self) -> tuple[Sheet, ...]:
        """Every sheet, newest first."""
        return self._found(_marks())

    def _found(self, marks: Select[tuple[str]]) -> tuple[Sheet, ...]:
        hashes = [mark.hash for mark in self._connection.execute(marks)]
        return tuple(_READ.of(hashes, self._read).values())

    def _read(self, hashes: Sequence[str]) -> dict[str, Sheet]:
        """Sheets by the hash of the event that froze them."""
        query = select(SHEET, EVENT.c.hash).join(EVENT, SHEET.c.event_id == EVENT.c.id)
        rows = self._connection.execute(query.where(EVENT.c.hash.in_(hashes))).mappings()
        return {row["hash"]: _sheet(row) for row in rows}


def _marks() -> Select[tuple[str]]:
    """The hashes of the events that froze sheets, newest sheet first."""
    joined = select(EVENT.c.hash).join(SHEET, SHEET.c.event_id == EVENT.c.id)
    return joined.order_by(SHEET.c.number.desc())


class SqlPhotos:
    """Pictures."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def add(self, id: str, jpeg: bytes) -> None:
        """Keep a picture; the same id again changes nothing."""
        if not self._connection.execute(select(PHOTO.c.id).where(PHOTO.c.id == id)).first():
            self._connection.execute(insert(PHOTO).values(id=id, jpeg=jpeg))

    def get(self, id: str) -> bytes:
        """The picture. Raises: NotFound."""
        found = self._connection.execute(select(PHOTO.c.jpeg).where(PHOTO.c.id == id)).scalar()
        if found is None:
            raise NotFound(f"there is no picture {id!r}")
        return bytes(found)


def _sheet(row: RowMapping) -> Sheet:
    return Sheet(
        row["number"], row["code"], row["frozen_at"], row["version"], row["title"],
        json.loads(row["draft"]), json.loads(row["request"]), json.loads(row["plan"]),
    )  # fmt: skip
