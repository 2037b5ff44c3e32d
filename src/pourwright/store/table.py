"""The tables of the store."""

from __future__ import annotations

from sqlalchemy import (
    REAL,
    CheckConstraint,
    Column,
    ForeignKey,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    Table,
    Text,
)

HEAD = "0003"
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
    Index("ix_event_kind", "kind", "at"),
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
PAPER_FILE = Table(
    "paper_file", META,
    Column("id", Text, primary_key=True),
    Column("media_type", Text, nullable=False),
    Column("bytes", LargeBinary, nullable=False),
    Column("event_id", Text, ForeignKey("event.id"), nullable=False),
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

LOT = Table(
    "lot", META,
    Column("code", Text, primary_key=True),
    Column("sort", Text, nullable=False),
    Column("item", Text, nullable=False),
    Column("opened_at", Text, nullable=False),
    Column("name", Text, nullable=False),
    Column("baits_each", Integer, CheckConstraint("baits_each >= 1"), nullable=False),
    Column("event_id", Text, ForeignKey("event.id"), nullable=False),
    Index("ix_lot_sort", "sort", "item"),
    sqlite_strict=True,
)  # fmt: skip
MOVE = Table(
    "move", META,
    Column("place", Integer, primary_key=True),
    Column("id", Text, ForeignKey("event.id"), nullable=False, unique=True),
    Column("at", Text, nullable=False, index=True),
    Column("kind", Text, nullable=False),
    Column("source", Text, ForeignKey("lot.code"), index=True),
    Column("target", Text, ForeignKey("lot.code"), index=True),
    Column("mg", Integer, CheckConstraint("mg >= 0"), nullable=False),
    Column("pieces", Integer, CheckConstraint("pieces >= 0"), nullable=False),
    Column("cost", Integer, CheckConstraint("cost >= 0"), nullable=False),
    Column("cause", Text, nullable=False, index=True),
    Column("reverses", Text, ForeignKey("move.id"), unique=True),
    Column("note", Text, nullable=False),
    CheckConstraint("source IS NOT NULL OR target IS NOT NULL"),
    CheckConstraint("source IS NULL OR target IS NULL OR source <> target"),
    sqlite_strict=True,
)  # fmt: skip

APPEND_ONLY = ("event", "sheet", "photo", "paper_file", "lot", "move")
