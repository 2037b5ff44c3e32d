"""Frozen sheets and kept pictures."""

from __future__ import annotations

import json

from sqlalchemy import Connection, RowMapping, func, insert, select

from pourwright.actions.port import Event, Ids, Ledger
from pourwright.base.errors import Conflict, NotFound
from pourwright.shop.sheet import Sheet
from pourwright.store.codec import canonical
from pourwright.store.table import PHOTO, SHEET


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
        query = select(SHEET).where(SHEET.c.number == number)
        row = self._connection.execute(query).mappings().first()
        if row is None:
            raise NotFound(f"there is no sheet {number}")
        return _sheet(row)

    def all(self) -> tuple[Sheet, ...]:
        """Every sheet, newest first."""
        query = select(SHEET).order_by(SHEET.c.number.desc())
        return tuple(_sheet(r) for r in self._connection.execute(query).mappings())


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
