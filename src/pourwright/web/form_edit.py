"""Change the shape of a form without losing what was typed: rows, parts and kinds."""

from __future__ import annotations

import dataclasses
import re
from typing import Any

from pourwright.base.field import Field, fields_of
from pourwright.base.units import System
from pourwright.web.form import Typed, fresh_kind, fresh_row, kinds_of, rows_of, system_of

MOST_ROWS = 9999
_STEP = re.compile(r"([a-z0-9_]+)(?:\[([0-9]{1,4})\])?")


def edited(record: type[Any], typed: Typed, command: str, system: System) -> dict[str, str]:
    """The form after a command: `add:PATH`, `remove:PATH`, or anything else for no change."""
    word, _, path = command.partition(":")
    system = system_of(typed, system)
    entry = _entry(record, typed, path) if path else None
    if entry is None or word not in {"add", "remove"}:
        return dict(typed)
    if word == "add":
        return _added(entry, typed, path, system)
    return _removed(typed, path)


def settled(record: type[Any], typed: Typed, system: System) -> tuple[dict[str, str], bool]:
    """The form with the fields of newly chosen kinds, and whether any of them is new to the eye."""
    found = dict(typed)
    appeared = False
    for path in [name.removesuffix(".kind") for name in typed if name.endswith(".kind")]:
        key = typed[f"{path}.kind"]
        entry = _entry(record, typed, path)
        if entry is None or entry.shape != "kind" or typed.get(f"{path}@", "") == key:
            continue
        found = fresh_kind(entry, key, path, system_of(typed, system)) | found | {f"{path}@": key}
        appeared = appeared or bool(key)
    return found, appeared


def _added(entry: Field, typed: Typed, path: str, system: System) -> dict[str, str]:
    if entry.shape != "list":
        return dict(typed) | fresh_row(entry, path, system) | {f"{path}?": "1"}
    rows = rows_of(typed, path, entry.spec.most)
    if rows == entry.spec.most:
        return dict(typed)
    return dict(typed) | fresh_row(entry, f"{path}[{rows}]", system) | {f"{path}#": str(rows + 1)}


def _removed(typed: Typed, path: str) -> dict[str, str]:
    """The form without a part, or without a row, the rows below it moved up."""
    row = re.fullmatch(r"(.*)\[([0-9]+)\]", path)
    if row is None:
        rest = {k: v for k, v in typed.items() if not k.startswith(f"{path}.")}
        return rest | {f"{path}?": ""}
    base, gone = row[1], int(row[2])
    rows = rows_of(typed, base, MOST_ROWS)
    if gone >= rows:
        return dict(typed)
    moved: dict[str, str] = {f"{base}#": str(rows - 1)}
    inside = re.compile(re.escape(base) + r"\[([0-9]+)\](.*)", re.DOTALL)
    for name, text in typed.items():
        hit = inside.fullmatch(name)
        if hit is None:
            moved.setdefault(name, text)
        elif int(hit[1]) != gone:
            place = int(hit[1]) - (int(hit[1]) > gone)
            moved[f"{base}[{place}]{hit[2]}"] = text
    return moved


def _entry(record: type[Any], typed: Typed, path: str) -> Field | None:
    """The declaration a path leads to, or none for a path that leads nowhere."""
    here: Any = record
    entry: Field | None = None
    walked = ""
    for step in path.split("."):
        hit = _STEP.fullmatch(step)
        entry = next((f for f in fields_of(here) if hit and f.name == hit[1]), None)
        if entry is None:
            return None
        walked = f"{walked}.{step}" if walked else step
        here = entry.type
        if entry.shape == "kind":
            here = kinds_of(entry).get(typed.get(f"{walked}.kind", ""), _Nothing)
        if not dataclasses.is_dataclass(here):
            here = _Nothing
    return entry


@dataclasses.dataclass(frozen=True)
class _Nothing:
    """Where a path can lead no further."""
