"""Alembic's entry: run the migrations on the engine that was handed in."""

from __future__ import annotations

from alembic import context

engine = context.config.attributes["engine"]
with engine.begin() as connection:
    context.configure(connection=connection, render_as_batch=True)
    context.run_migrations()
