"""The first schema: records, events, sheets, pictures, jobs."""

from __future__ import annotations

from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

TABLES = (
    """CREATE TABLE record (
    id TEXT NOT NULL PRIMARY KEY, sort TEXT NOT NULL, name TEXT NOT NULL,
    version INTEGER NOT NULL CHECK (version >= 1), changed_at TEXT NOT NULL,
    retired INTEGER NOT NULL CHECK (retired IN (0, 1)), body TEXT NOT NULL) STRICT""",
    "CREATE INDEX ix_record_sort ON record (sort)",
    """CREATE TABLE event (
    place INTEGER NOT NULL PRIMARY KEY, id TEXT NOT NULL UNIQUE, subject TEXT NOT NULL,
    kind TEXT NOT NULL, at TEXT NOT NULL, stored_at TEXT NOT NULL, body TEXT NOT NULL,
    previous_hash TEXT NOT NULL, hash TEXT NOT NULL) STRICT""",
    "CREATE INDEX ix_event_subject ON event (subject)",
    """CREATE TABLE sheet (
    number INTEGER NOT NULL PRIMARY KEY, code TEXT NOT NULL UNIQUE, frozen_at TEXT NOT NULL,
    version TEXT NOT NULL, title TEXT NOT NULL, draft TEXT NOT NULL, request TEXT NOT NULL,
    plan TEXT NOT NULL, event_id TEXT NOT NULL REFERENCES event (id)) STRICT""",
    "CREATE TABLE photo (id TEXT NOT NULL PRIMARY KEY, jpeg BLOB NOT NULL) STRICT",
    """CREATE TABLE job (
    key TEXT NOT NULL PRIMARY KEY, name TEXT NOT NULL, status TEXT NOT NULL, share REAL NOT NULL,
    answer TEXT, error TEXT, started_at TEXT NOT NULL) STRICT""",
)


def upgrade() -> None:
    for statement in TABLES:
        op.execute(statement)
    for table in ("event", "sheet", "photo"):
        for act in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END"
            )
