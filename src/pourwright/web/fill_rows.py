"""Rows offered but left empty are no entries: close the gaps, and remember where rows stood."""

from __future__ import annotations

import re
from typing import Any

from pourwright.base.field import fields_of
from pourwright.web.form import Typed, rows_of


def without_blank_rows(record: type[Any], typed: Typed) -> tuple[dict[str, str], dict[str, str]]:
    """The form without the empty rows of its lists, and for each path where it stood before."""
    found = dict(typed)
    places: dict[str, str] = {}
    for entry in fields_of(record):
        if entry.shape != "list":
            continue
        rows = [_row(typed, f"{entry.name}[{i}]") for i in range(rows_of(typed, entry.name, 999))]
        for i, row in enumerate(rows):
            for tail in row:
                del found[f"{entry.name}[{i}]{tail}"]
        kept = [(i, row) for i, row in enumerate(rows) if any(v.strip() for v in row.values())]
        for now, (before, row) in enumerate(kept):
            for tail, value in row.items():
                path = f"{entry.name}[{now}]{tail}"
                found[path] = value
                places[path] = f"{entry.name}[{before}]{tail}"
        found[f"{entry.name}#"] = str(len(kept))
    return found, places


def _row(typed: Typed, path: str) -> dict[str, str]:
    """What a row holds, by what follows its path."""
    tails = re.compile(re.escape(path) + r"(\..*)?")
    return {(m[1] or ""): v for k, v in typed.items() if (m := tails.fullmatch(k))}
