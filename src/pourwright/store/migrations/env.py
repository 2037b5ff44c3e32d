"""Alembic's entry: run the migrations on the engine that was handed in."""

from __future__ import annotations

from alembic import context

engine = context.config.attributes["engine"]
with engine.begin() as connection:
    context.configure(connection=connection, render_as_batch=True)
    context.run_migrations()
    # In the same transaction: a start cut off leaves either nothing or a store of ours.
    name = context.config.attributes["application_id"]
    connection.exec_driver_sql(f"PRAGMA application_id = {name}")
