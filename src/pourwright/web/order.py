"""The order in which a person meets the fields of a record."""

from __future__ import annotations

import dataclasses
from typing import Any

from pourwright.base.field import Field, fields_of

FIRST, LAST = "name", "note"


def in_order(record: type[Any]) -> tuple[Field, ...]:
    """The name, what is its own, what it shares with its like, and the note at the end."""
    bases = [base for base in record.__mro__[1:] if dataclasses.is_dataclass(base)]
    inherited = {f.name for base in bases for f in dataclasses.fields(base)}

    def place(field: Field) -> int:
        if field.name == FIRST:
            return 0
        if field.name == LAST:
            return 3
        return 2 if field.name in inherited else 1

    return tuple(sorted(fields_of(record), key=place))
