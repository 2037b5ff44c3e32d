"""Whether the rows of a file are those that were written: the chain, and what hangs on it."""

from __future__ import annotations

import base64
import hashlib
from typing import Any

from pourwright.actions.port import Event
from pourwright.base.errors import Conflict
from pourwright.store.codec import canonical
from pourwright.store.ledger import GENESIS, chained_hash
from pourwright.store.paper import PAPER_KEPT
from pourwright.store.record import RETIRED, SAVED
from pourwright.store.stock import MOVED, OPENED

_OF_SHEET = ("code", "version", "title", "draft", "request", "plan")
_OF_LOT = ("sort", "item", "name", "baits_each")
FROZEN = "frozen"
_JPEG = "/9j/"  # what the first three bytes of a JPEG are in base64


class Checks:
    """Rows, one after the other, in the order of the tables: events come before all others."""

    def __init__(self) -> None:
        self._place, self._hash = 0, GENESIS
        self._newest: dict[str, str] = {}
        # What each other row must be, by what it is of and the id of the event that made it.
        self._made: dict[str, str] = {}

    def row(self, table: str, values: dict[str, Any]) -> None:
        """Look at one row. Raises: Conflict saying what was altered."""
        match table:
            case "event":
                self._event(values)
            case "record":
                self._record(values)
            case "sheet":
                self._sheet(values)
            case "lot":
                self._lot(values)
            case "move":
                self._move(values)
            case "paper_file":
                self._paper(values)
            case "photo" if not str(values["jpeg"]).startswith(_JPEG):
                raise Conflict(f"the file was altered: picture {values['id']} is no picture")

    def at_end(self) -> None:
        """Everything the chain tells of was there. Raises: Conflict."""
        for left in (self._newest, self._made):
            if left:
                raise Conflict(f"the file was altered: {next(iter(left))} is missing from it")

    def _event(self, it: dict[str, Any]) -> None:
        event = Event(it["id"], it["subject"], it["kind"], it["at"], it["body"])
        self._place += 1
        fits = it["place"] == self._place and it["previous_hash"] == self._hash
        if not fits or it["hash"] != chained_hash(self._hash, event):
            raise Conflict(
                f"the file was altered: event {self._place} does not fit the chain of hashes"
            )
        self._hash = it["hash"]
        if event.kind in {SAVED, RETIRED}:
            retired = int(event.kind == RETIRED)
            self._newest[event.subject] = canonical([event.body, event.at, retired])
        elif event.kind in {FROZEN, OPENED}:
            self._made[event.subject] = canonical([event.id, event.at, event.body])
        elif event.kind == PAPER_KEPT:
            self._made[event.subject] = canonical([event.id, event.body])
        elif event.kind == MOVED:
            self._made[f"move/{event.id}"] = canonical([self._place, event.at, event.body])

    def _record(self, it: dict[str, Any]) -> None:
        subject = f"{it['sort']}/{it['id']}"
        body = {"version": it["version"], "content": it["body"]}
        found = canonical([body, it["changed_at"], it["retired"]])
        if self._newest.pop(subject, "") != found or it["name"] != it["body"]["name"]:
            raise Conflict(f"the file was altered: {subject} is not what its history says")

    def _sheet(self, it: dict[str, Any]) -> None:
        body = {name: it[name] for name in _OF_SHEET}
        found = canonical([it["event_id"], it["frozen_at"], body])
        self._expect(f"sheet/{it['number']}", found)

    def _lot(self, it: dict[str, Any]) -> None:
        body = {name: it[name] for name in _OF_LOT}
        self._expect(f"stock/{it['code']}", canonical([it["event_id"], it["opened_at"], body]))

    def _move(self, it: dict[str, Any]) -> None:
        body = {name: value for name, value in it.items() if name not in {"id", "at", "place"}}
        self._expect(f"move/{it['id']}", canonical([it["place"], it["at"], body]))

    def _paper(self, it: dict[str, Any]) -> None:
        subject = f"paper/{it['id']}"
        self._expect(subject, canonical([it["event_id"], {"media_type": it["media_type"]}]))
        try:
            found = hashlib.sha256(base64.b64decode(it["bytes"], validate=True)).hexdigest()
        except (TypeError, ValueError):
            found = ""
        if found != it["id"]:
            raise Conflict(f"the file was altered: {subject} is not what was given")

    def _expect(self, subject: str, found: str) -> None:
        if self._made.pop(subject, "") != found:
            raise Conflict(f"the file was altered: {subject} is not what the ledger tells of it")
