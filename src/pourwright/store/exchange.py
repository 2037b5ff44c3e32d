"""The whole store as one JSON file, and back into an empty one, byte for byte.

The file is one object with sorted keys: `application`, `format`, `schema`, then `tables` with the
rows of each, a row a line, by primary key. Times, whole numbers and texts stand as they are
stored, stored JSON as JSON, pictures and papers as base64. It carries no time of its own, so that
the same store always gives the same file. Finished calculations are left out: they can be made
again.
"""

from __future__ import annotations

import base64
import binascii
import itertools
from collections.abc import Iterable, Iterator
from typing import Any

from sqlalchemy import Connection, LargeBinary, Table, exists, insert, select
from sqlalchemy.exc import DBAPIError, StatementError

from pourwright.actions.port import ExchangeHead, ExchangeRow, TakenIn
from pourwright.base.errors import BadInput, Conflict
from pourwright.store.codec import canonical
from pourwright.store.exchange_check import Checks
from pourwright.store.table import HEAD, JOB, META

APPLICATION, FORMAT = "pourwright", 1
FIELD = "file"
_JSON = frozenset({"body", "draft", "request", "plan"})
_BATCH = 500


def kept_tables() -> tuple[Table, ...]:
    """The tables that hold what people entered, by name."""
    return tuple(META.tables[name] for name in sorted(META.tables) if name != JOB.name)


def written(connection: Connection) -> Iterator[bytes]:
    """The store as the pieces of a file."""
    head = f'"application":"{APPLICATION}","format":{FORMAT},"schema":"{HEAD}"'
    yield f'{{{head},"tables":{{'.encode()
    for place, table in enumerate(kept_tables()):
        yield f'{"," if place else ""}\n"{table.name}":['.encode()
        yield from _table(connection, table)
        yield b"]"
    yield b"\n}}\n"


def taken_in(connection: Connection, head: ExchangeHead, rows: Iterable[ExchangeRow]) -> TakenIn:
    """Fill an empty store with the rows of a file; the caller keeps all of it or nothing.

    Raises: Conflict for a store that is not empty, a file of another program version, or one that
    was altered; BadInput for rows that are none of ours.
    """
    _fitting(head)
    _empty(connection)
    checks = Checks()
    connection.exec_driver_sql("PRAGMA defer_foreign_keys = ON")
    count: dict[str, int] = {}
    for name, its in itertools.groupby(rows, key=lambda row: row.table):
        table = _named(name, after=tuple(count))
        count[name] = 0
        while batch := tuple(itertools.islice(its, _BATCH)):
            _take(connection, table, batch, checks)
            count[name] += len(batch)
    checks.at_end()
    if connection.exec_driver_sql("PRAGMA foreign_key_check").first():
        raise Conflict("the file was altered: a row names another that is not in it")
    return TakenIn(count)


def _take(
    connection: Connection, table: Table, batch: Iterable[ExchangeRow], checks: Checks
) -> None:
    try:
        _insert(connection, table, [_stored(table, row.values, checks) for row in batch])
    except (UnicodeEncodeError, OverflowError, RecursionError) as error:
        why = f"holds a row of {table.name} with half a character, or a number that is too large"
        raise BadInput(FIELD, table.name, why) from error


def _table(connection: Connection, table: Table) -> Iterator[bytes]:
    rows = connection.execution_options(yield_per=_BATCH).execute(
        select(table).order_by(*table.primary_key)
    )
    names = sorted(table.columns.keys())
    for place, row in enumerate(rows.mappings()):
        cells = (f'"{name}":{_shown(name, row[name])}' for name in names)
        yield f"{',' if place else ''}\n{{{','.join(cells)}}}".encode()


def _shown(column: str, value: Any) -> str:
    """A value as JSON; stored JSON has the one spelling already."""
    if isinstance(value, bytes):
        return canonical(base64.b64encode(value).decode())
    return value if column in _JSON else canonical(value)


def _fitting(head: ExchangeHead) -> None:
    if head.application != APPLICATION:
        raise BadInput(FIELD, head.application, "is no export of a Pourwright bench")
    if head.format > FORMAT or head.schema > HEAD:
        raise Conflict("the file is newer than this program: update the program first")
    if head.schema != HEAD:
        raise Conflict(
            f"the file is of schema {head.schema}, this program of {HEAD}: take it in with the "
            "program that wrote it, update that, and export again"
        )


def _empty(connection: Connection) -> None:
    for table in kept_tables():
        if connection.execute(select(exists().select_from(table))).scalar():
            raise Conflict(
                "this bench holds something already; a file is taken in only by an empty one, so "
                "that nothing is lost or mixed up"
            )


def _named(name: str, *, after: tuple[str, ...]) -> Table:
    table = next((t for t in kept_tables() if t.name == name), None)
    if table is None:
        raise BadInput(FIELD, name, "is no table of a bench")
    if after and name <= after[-1]:
        raise BadInput(FIELD, name, f"stands after {after[-1]}: the tables are out of order")
    return table


def _stored(table: Table, values: Any, checks: Checks) -> dict[str, Any]:
    if not isinstance(values, dict) or set(values) != set(table.columns.keys()):
        raise BadInput(FIELD, values, f"is no row of {table.name}")
    checks.row(table.name, values)
    return {name: _value(table, name, value) for name, value in values.items()}


def _value(table: Table, column: str, value: Any) -> Any:
    if column in _JSON:
        return canonical(value)
    if not isinstance(table.c[column].type, LargeBinary):
        return value
    try:
        return base64.b64decode(value, validate=True)
    except (binascii.Error, TypeError, ValueError) as error:
        raise BadInput(FIELD, value, f"is no base64 text, in {table.name}.{column}") from error


def _insert(connection: Connection, table: Table, rows: list[dict[str, Any]]) -> None:
    try:
        connection.execute(insert(table), rows)
    except (DBAPIError, StatementError) as error:
        why = f"holds a row that {table.name} does not take: {error.args[0]}"
        raise BadInput(FIELD, table.name, why) from error
