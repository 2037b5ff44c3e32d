"""A checked copy of a store."""

from __future__ import annotations

import hashlib
import sqlite3
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

    Raises: NotFound without a store, Conflict if the target stands or the copy is not sound.
    """
    if not store.exists():
        raise NotFound(f"there is no store at {store.name}")
    if target.exists():
        raise Conflict(f"{target.name} stands already; nothing was overwritten")
    source, copy = sqlite3.connect(store), sqlite3.connect(target)
    try:
        source.backup(copy)
        verdict = copy.execute("PRAGMA integrity_check").fetchone()[0]
    finally:
        source.close()
        copy.close()
    if verdict != "ok":
        raise Conflict(f"the copy is not sound: {verdict}")
    digest = hashlib.sha256(target.read_bytes()).hexdigest()
    target.with_name(f"{target.name}.sha256").write_text(f"{digest}  {target.name}\n")
    return Copy(target, digest)
