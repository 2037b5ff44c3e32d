"""Suppliers' papers in the store; the ledger tells of each when it was first kept."""

from __future__ import annotations

from sqlalchemy import Connection, insert, select

from pourwright.actions.port import Event, Ids, Ledger
from pourwright.base.errors import NotFound
from pourwright.shop.paper_file import PaperFile
from pourwright.store.table import PAPER_FILE

PAPER_KEPT = "paper_kept"


class SqlPapers:
    """Files, kept for good."""

    def __init__(self, connection: Connection, ledger: Ledger, ids: Ids) -> None:
        self._connection = connection
        self._ledger = ledger
        self._ids = ids

    def add(self, file: PaperFile, *, at: str) -> None:
        """Keep a file; the same content again changes nothing."""
        known = select(PAPER_FILE.c.id).where(PAPER_FILE.c.id == file.id)
        if self._connection.execute(known).first():
            return
        event = Event(self._ids.fresh(), f"paper/{file.id}", PAPER_KEPT, at,
                      {"media_type": file.media_type})  # fmt: skip
        self._ledger.append(event)
        values = {"id": file.id, "media_type": file.media_type, "bytes": file.content}
        self._connection.execute(insert(PAPER_FILE).values(event_id=event.id, **values))

    def get(self, id: str) -> PaperFile:
        """The file. Raises: NotFound."""
        query = select(PAPER_FILE).where(PAPER_FILE.c.id == id)
        row = self._connection.execute(query).mappings().first()
        if row is None:
            raise NotFound(f"there is no paper {id!r}")
        return PaperFile(row["id"], row["media_type"], bytes(row["bytes"]))
