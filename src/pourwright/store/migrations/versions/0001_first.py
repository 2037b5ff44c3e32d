"""The first schema: records, events, sheets, pictures, jobs."""

from __future__ import annotations

from alembic import op

from pourwright.store.table import APPEND_ONLY, META

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    META.create_all(op.get_bind())
    for table in APPEND_ONLY:
        for act in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END"
            )
