"""What of a calculation's input is asked, and what is carried along.

What no hand types (a file, a curve of 31 numbers, what an oven taught) stands in the form as one
text, its JSON, so that rows, parts and kinds move it like any other box. A row of several kinds
is a record with one part, whose kind is chosen.
"""

from __future__ import annotations

import dataclasses
import re
from typing import Any, cast

from pourwright.base.field import Field, fields_of

# More numbers in a row than a person types, and more rows than a person makes.
MOST_NUMBERS, MOST_ROWS = 24, 200
# No text a person types is this long: by it a form knows what is carried along.
CARRIED_TEXT = 10**8
# The part of a row that may be of several kinds.
ONE = "one"


def carried(field: Field) -> bool:
    """Whether a field is carried along rather than asked, by its declaration."""
    match field.shape:
        case "file":
            return True
        case "record":
            return for_machines(field.type)
        case "list":
            return _carried_list(field)
        case _:
            return False


def for_machines(record: type[Any]) -> bool:
    """Whether a record holds more than a person would read or type."""
    return any(f.required and carried(f) for f in fields_of(record))


def needs_file(record: type[Any]) -> bool:
    """Whether a calculation cannot be asked without a file."""
    return any(f.shape == "file" and f.required for f in fields_of(record))


def of_records(field: Field) -> bool:
    """Whether a field is a list of records of one sort."""
    return field.shape == "list" and dataclasses.is_dataclass(field.type) and not of_kinds(field)


def of_kinds(field: Field) -> bool:
    """Whether a field is a list whose rows may be of several kinds."""
    return field.shape == "list" and field.spec.kinds is not None


def asked_path(record: type[Any], path: str) -> str:
    """Where the form has what the input has at a path."""
    head, _, rest = path.partition(".")
    field = next((f for f in fields_of(record) if f.name == head.partition("[")[0]), None)
    if field is None or not rest:
        return path
    if of_kinds(field):
        return f"{head}.{ONE}.{rest}"
    inner = field.type if field.shape == "record" or of_records(field) else None
    return f"{head}.{asked_path(inner, rest)}" if inner else path


def without_rows(path: str) -> str:
    """A path with its row numbers taken out: the same for every row of a list."""
    return re.sub(r"\[[0-9]+\]", "[]", path)


def _carried_list(field: Field) -> bool:
    if field.spec.most > MOST_ROWS:
        return True
    if of_kinds(field):
        return False
    if dataclasses.is_dataclass(field.type):
        return for_machines(cast("type[Any]", field.type))
    return field.type not in {float, int} or field.spec.most > MOST_NUMBERS
