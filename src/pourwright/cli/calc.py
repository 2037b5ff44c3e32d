"""`pourwright calc`: any calculation, JSON in and JSON out."""

from __future__ import annotations

import functools
import json
import os
import sys
from typing import Any

import click

from pourwright.base.errors import BadInput, PourwrightError
from pourwright.base.file import Readers
from pourwright.base.mesh import Mesh
from pourwright.base.picture import Picture


@click.command()
@click.argument("name", required=False)
@click.option("--list", "listed", is_flag=True, help="Name and purpose of every calculation.")
@click.option("--json", "as_json", is_flag=True, help="The list as JSON.")
@click.option("--schema", is_flag=True, help="JSON Schema of input and answer.")
@click.option("--example", is_flag=True, help="A complete valid input.")
def calc(name: str | None, *, listed: bool, as_json: bool, schema: bool, example: bool) -> None:
    """Answer calculation NAME: JSON on standard input, the answer on standard output.

    A refusal goes to standard error as one JSON object; the exit code says who can fix it:
    2 a bad input, 3 nothing of that name, 5 no answer exists, 1 our bug.
    """
    try:
        if listed:
            click.echo(_list(as_json=as_json))
        elif name is None:
            raise BadInput("name", None, "is required: name a calculation, or use --list")
        else:
            click.echo(_text(_answer(name, schema=schema, example=example)))
    except PourwrightError as error:
        refuse(error)


def refuse(error: PourwrightError) -> None:
    """End the command with a refusal that a program can read."""
    click.echo(json.dumps(error.as_json(), ensure_ascii=False), err=True)
    raise SystemExit(error.exit_code)


def _list(*, as_json: bool) -> str:
    from pourwright.actions.catalog import CATALOG  # noqa: PLC0415  so that --help stays quick

    if as_json:
        return _text([{"name": c.name, "purpose": c.purpose} for c in CATALOG.values()])
    width = max(map(len, CATALOG))
    return "\n".join(f"{c.name:{width}}  {c.purpose}" for c in CATALOG.values())


def _answer(name: str, *, schema: bool, example: bool) -> object:
    from pourwright.actions.catalog import named  # noqa: PLC0415  so that --help stays quick
    from pourwright.actions.strict_json import parsed  # noqa: PLC0415  as above

    calculation = named(name)
    if schema:
        return calculation.schema()
    if example:
        return dict(calculation.example)
    data = parsed(sys.stdin.buffer.read())
    _send_strangers_aside()
    return calculation.answer(data, _READERS)


def _send_strangers_aside() -> None:
    """Keep standard output for the answer: solvers written in C now and then print past Python."""
    own = sys.__stdout__
    if own is not None and sys.stdout is own:
        ours = os.dup(1)
        os.dup2(2, 1)
        sys.stdout = os.fdopen(ours, "w", encoding=own.encoding)


def _opened(sort: type[Any], data: bytes) -> Any:
    from pourwright.wire import READERS  # noqa: PLC0415  few calculations take a file

    return READERS[sort](data)


_READERS: Readers = {sort: functools.partial(_opened, sort) for sort in (Picture, Mesh)}


def _text(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, indent=2, allow_nan=False)
