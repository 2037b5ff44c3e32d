"""Lots of stock and their moves; events are found by their kind."""

from __future__ import annotations

from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

TABLES = (
    "CREATE INDEX ix_event_kind ON event (kind, at)",
    """CREATE TABLE lot (
    code TEXT NOT NULL PRIMARY KEY, sort TEXT NOT NULL, item TEXT NOT NULL,
    opened_at TEXT NOT NULL, name TEXT NOT NULL,
    baits_each INTEGER NOT NULL CHECK (baits_each >= 1),
    event_id TEXT NOT NULL REFERENCES event (id)) STRICT""",
    "CREATE INDEX ix_lot_sort ON lot (sort, item)",
    """CREATE TABLE move (
    place INTEGER NOT NULL PRIMARY KEY, id TEXT NOT NULL UNIQUE REFERENCES event (id),
    at TEXT NOT NULL, kind TEXT NOT NULL, source TEXT REFERENCES lot (code),
    target TEXT REFERENCES lot (code), mg INTEGER NOT NULL CHECK (mg >= 0),
    pieces INTEGER NOT NULL CHECK (pieces >= 0), cost INTEGER NOT NULL CHECK (cost >= 0),
    cause TEXT NOT NULL, reverses TEXT UNIQUE REFERENCES move (id), note TEXT NOT NULL,
    CHECK (source IS NOT NULL OR target IS NOT NULL),
    CHECK (source IS NULL OR target IS NULL OR source <> target)) STRICT""",
    *(f"CREATE INDEX ix_move_{c} ON move ({c})" for c in ("at", "source", "target", "cause")),
)


def upgrade() -> None:
    for statement in TABLES:
        op.execute(statement)
    for table in ("lot", "move"):
        for act in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END"
            )
