"""The tables of the store."""

from __future__ import annotations

from sqlalchemy import (
    REAL,
    CheckConstraint,
    Column,
    ForeignKey,
    Integer,
    LargeBinary,
    MetaData,
    Table,
    Text,
)

HEAD = "0001"
META = MetaData()

RECORD = Table(
    "record", META,
    Column("id", Text, primary_key=True),
    Column("sort", Text, nullable=False, index=True),
    Column("name", Text, nullable=False),
    Column("version", Integer, CheckConstraint("version >= 1"), nullable=False),
    Column("changed_at", Text, nullable=False),
    Column("retired", Integer, CheckConstraint("retired IN (0, 1)"), nullable=False),
    Column("body", Text, nullable=False),
    sqlite_strict=True,
)  # fmt: skip
EVENT = Table(
    "event", META,
    Column("place", Integer, primary_key=True),
    Column("id", Text, nullable=False, unique=True),
    Column("subject", Text, nullable=False, index=True),
    Column("kind", Text, nullable=False),
    Column("at", Text, nullable=False),
    Column("stored_at", Text, nullable=False),
    Column("body", Text, nullable=False),
    Column("previous_hash", Text, nullable=False),
    Column("hash", Text, nullable=False),
    sqlite_strict=True,
)  # fmt: skip
SHEET = Table(
    "sheet", META,
    Column("number", Integer, primary_key=True),
    Column("code", Text, nullable=False, unique=True),
    Column("frozen_at", Text, nullable=False),
    Column("version", Text, nullable=False),
    Column("title", Text, nullable=False),
    Column("draft", Text, nullable=False),
    Column("request", Text, nullable=False),
    Column("plan", Text, nullable=False),
    Column("event_id", Text, ForeignKey("event.id"), nullable=False),
    sqlite_strict=True,
)  # fmt: skip
PHOTO = Table(
    "photo", META,
    Column("id", Text, primary_key=True),
    Column("jpeg", LargeBinary, nullable=False),
    sqlite_strict=True,
)  # fmt: skip
JOB = Table(
    "job", META,
    Column("key", Text, primary_key=True),
    Column("name", Text, nullable=False),
    Column("status", Text, nullable=False),
    Column("share", REAL, nullable=False),
    Column("answer", Text),
    Column("error", Text),
    Column("started_at", Text, nullable=False),
    sqlite_strict=True,
)  # fmt: skip

APPEND_ONLY = ("event", "sheet", "photo")
