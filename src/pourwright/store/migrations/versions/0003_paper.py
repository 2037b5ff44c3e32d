"""Suppliers' papers as files."""

from __future__ import annotations

from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None

TABLE = """CREATE TABLE paper_file (
    id TEXT NOT NULL PRIMARY KEY, media_type TEXT NOT NULL, bytes BLOB NOT NULL,
    event_id TEXT NOT NULL REFERENCES event (id)) STRICT"""


def upgrade() -> None:
    op.execute(TABLE)
    for act in ("UPDATE", "DELETE"):
        op.execute(
            f"CREATE TRIGGER paper_file_no_{act.lower()} BEFORE {act} ON paper_file "
            "BEGIN SELECT RAISE(ABORT, 'paper_file is append-only'); END"
        )
