"""What stands at the box of a record's field."""

from __future__ import annotations

import dataclasses
import re
from decimal import ROUND_CEILING, ROUND_FLOOR, Context
from typing import Any

_LIMITS = re.compile(r"between ([\d.]+) and ([\d.]+)")
# Rounded inward, so that a limit that is told is itself let through.
_LOW, _HIGH = Context(prec=3, rounding=ROUND_CEILING), Context(prec=3, rounding=ROUND_FLOOR)


def label_of(record: type[Any], name: str) -> str:
    """The label of a field; its name where the record has no such field."""
    fields = dataclasses.fields(record)
    labels = {field.name: str(field.metadata["spec"].help) for field in fields}
    return labels.get(name, name).partition(";")[0]


def rounded_limits(why: str) -> str:
    """A refusal with the limits in it to three figures."""

    def said(found: re.Match[str]) -> str:
        low, high = (
            c.create_decimal(t) for c, t in zip((_LOW, _HIGH), found.groups(), strict=True)
        )
        return f"between {low:f} and {high:f}"

    return _LIMITS.sub(said, why)
