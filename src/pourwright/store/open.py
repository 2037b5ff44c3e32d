"""Open a store: make it, bring it up to date, refuse what is not ours."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

from sqlalchemy import Engine, create_engine, event, text

from pourwright.base.errors import Conflict
from pourwright.store.backup import copy_of
from pourwright.store.table import HEAD, META, PAPER_FILE, PHOTO

# Says of a connection that it will only read.
READING = "reading"
APPLICATION_ID = 0x506F7572  # "Pour"
MIGRATIONS = Path(__file__).with_name("migrations")


def open_store(path: Path) -> Engine:
    """The engine of a store in a file, made or brought up to date where needed.

    Raises: Conflict if the file is not a Pourwright store, is damaged, or is newer than this.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    fresh = not path.exists() or _empty(path)
    engine = create_engine(f"sqlite:///{path}")
    event.listen(engine, "connect", _connected)
    event.listen(engine, "begin", _begun)
    revision = None if fresh else _revision(engine)
    if revision != HEAD:
        if not fresh:
            copy_of(path, path.with_name(f"{path.stem}-before-{HEAD}{path.suffix}"))
        _migrate(engine)
    return engine


def _empty(path: Path) -> bool:
    """Whether nothing lies in the file yet, as after a first start that was cut off.

    Raises: Conflict if what lies in it is not a sound store of ours.
    """
    try:
        with closing(sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True)) as it:
            found = it.execute("PRAGMA application_id").fetchone()[0]
            tables = {name for (name,) in it.execute("SELECT name FROM sqlite_schema")}
            ours = tables & META.tables.keys() if found == APPLICATION_ID else set()
            verdict = _verdict(it, ours - {PHOTO.name, PAPER_FILE.name})  # files may be large
    except sqlite3.DatabaseError as error:
        raise Conflict(f"{path.name} is damaged or is no store: {error}") from error
    if tables and found != APPLICATION_ID:
        raise Conflict(f"{path.name} is not a Pourwright store; nothing was changed")
    if verdict != "ok":
        raise Conflict(f"{path.name} is damaged: {verdict}; go back to a backup")
    return not tables


def _verdict(connection: sqlite3.Connection, tables: set[str]) -> str:
    """The word "ok", or the first damage found in the tables."""
    for table in sorted(tables):
        found = connection.execute(f"PRAGMA quick_check({table})").fetchone()
        if found[0] != "ok":
            return str(found[0])
    return "ok"


def _revision(engine: Engine) -> str | None:
    with engine.connect() as connection:
        names = connection.execute(text("SELECT name FROM sqlite_schema WHERE type = 'table'"))
        if "alembic_version" not in {n for (n,) in names}:
            return None
        found = connection.execute(text("SELECT version_num FROM alembic_version")).scalar()
    known = {p.stem.split("_")[0] for p in (MIGRATIONS / "versions").glob("*.py")}
    if found is not None and found not in known:
        raise Conflict(f"this store is at {found}, newer than this program: update the program")
    return found


def _migrate(engine: Engine) -> None:
    from alembic import command  # noqa: PLC0415  a start without a migration does not pay for it
    from alembic.config import Config  # noqa: PLC0415  as above

    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS))
    config.attributes["engine"] = engine
    config.attributes["application_id"] = APPLICATION_ID
    command.upgrade(config, HEAD)


def _connected(connection: Any, _record: Any) -> None:
    """Every connection: one writer at a time, nothing lost on a power cut."""
    connection.isolation_level = None
    cursor = connection.cursor()
    for pragma in (
        "journal_mode = WAL", "synchronous = FULL", "foreign_keys = ON", "busy_timeout = 5000",
        "cell_size_check = ON",
    ):  # fmt: skip
        cursor.execute(f"PRAGMA {pragma}")
    cursor.close()


def _begun(connection: Any) -> None:
    """Who may write takes the store from the start; who only reads holds nobody up."""
    reading = connection.get_execution_options().get(READING, False)
    connection.exec_driver_sql("BEGIN" if reading else "BEGIN IMMEDIATE")
