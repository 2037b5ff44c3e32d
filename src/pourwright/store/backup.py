"""A checked copy of a store."""

from __future__ import annotations

import hashlib
import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from pourwright.base.errors import Conflict, NotFound


@dataclass(frozen=True, slots=True)
class Copy:
    """A copy, and the SHA-256 that stands beside it."""

    path: Path
    sha256: str


def copy_of(store: Path, target: Path) -> Copy:
    """Copy a store by the database's own backup, check the copy, write its hash beside it.

    Raises: NotFound without a store, Conflict if the target stands or the copy is not sound;
    then no half copy is left behind.
    """
    if not store.exists():
        raise NotFound(f"there is no store at {store.name}")
    if target.exists():
        raise Conflict(f"{target.name} stands already; nothing was overwritten")
    if not target.parent.is_dir():
        raise NotFound(f"there is no folder {target.parent.name} to put the copy in")
    verdict = _copied(store, target)
    if verdict != "ok":
        target.unlink(missing_ok=True)
        raise Conflict(f"no copy was kept, it would not be sound: {verdict}")
    digest = hashlib.sha256(target.read_bytes()).hexdigest()
    target.with_name(f"{target.name}.sha256").write_text(f"{digest}  {target.name}\n")
    return Copy(target, digest)


def _copied(store: Path, target: Path) -> str:
    """Copy, and say "ok" or what is wrong with the copy."""
    with closing(sqlite3.connect(store)) as source, closing(sqlite3.connect(target)) as copy:
        try:
            source.backup(copy)
            return str(copy.execute("PRAGMA integrity_check").fetchone()[0])
        except sqlite3.DatabaseError as error:
            return str(error)
