"""An input's JSON as its form keeps it, and back."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from pourwright.actions.strict_json import parsed
from pourwright.base.errors import BadInput
from pourwright.base.field import Field, fields_of
from pourwright.web.form import kinds_of
from pourwright.web.question.shape import ONE, carried, of_kinds, of_records, without_rows

Tree = Mapping[str, Any]
Ranges = Mapping[tuple[str, float], Tree]


def asked_tree(record: type[Any], tree: Tree) -> dict[str, Any]:
    """An input's JSON as the asked record keeps it."""
    known = {f.name: f for f in fields_of(record) if f.name in tree}
    return {name: _asked_value(f, tree[name]) for name, f in known.items()}


def given_tree(record: type[Any], tree: Tree, ranges: Ranges, where: str = "") -> dict[str, Any]:
    """The input's JSON again; `ranges` are those of the numbers that stayed as they were.

    Raises: BadInput for a carried text that is no JSON.
    """
    found = {}
    for field in fields_of(record):
        value = tree.get(field.name)
        if field.name not in tree or (carried(field) and not value):
            continue
        found[field.name] = _given_value(field, value, ranges, f"{where}{field.name}")
    return found


def ranges_in(record: type[Any], tree: Tree, where: str = "") -> dict[tuple[str, float], Tree]:
    """Every range in an input, by its path without row numbers and its typical value."""
    found: dict[tuple[str, float], Tree] = {}
    for field in fields_of(record):
        value, path = tree.get(field.name), f"{where}{field.name}"
        if value is None or carried(field):
            continue
        if field.shape == "band" and isinstance(value, Mapping):
            found[path, float(value["typical"])] = value
        elif field.shape == "record":
            found |= ranges_in(field.type, value, f"{path}.")
        elif field.shape == "kind":
            found |= ranges_in(_kind(field, value), value, f"{path}.")
        elif of_kinds(field):
            for row in value:
                found |= ranges_in(_kind(field, row), row, f"{path}[].{ONE}.")
        elif of_records(field):
            for row in value:
                found |= ranges_in(field.type, row, f"{path}[].")
    return found


def _asked_value(field: Field, value: Any) -> Any:
    if carried(field):
        return "" if value is None else json.dumps(value, separators=(",", ":"))
    if value is None:
        return None
    match field.shape:
        case "band" if isinstance(value, Mapping):
            return value["typical"]
        case "record":
            return asked_tree(field.type, value)
        case "kind":
            return _asked_kind(field, value)
        case "list" if of_kinds(field):
            return [{ONE: _asked_kind(field, row)} for row in value]
        case "list" if of_records(field):
            return [asked_tree(field.type, row) for row in value]
        case _:
            return value


def _given_value(field: Field, value: Any, ranges: Ranges, path: str) -> Any:
    if carried(field):
        return _read_back(value, path)
    if value is None:
        return None
    match field.shape:
        case "band":
            return ranges.get((without_rows(path), value), value)
        case "record":
            return given_tree(field.type, value, ranges, f"{path}.")
        case "kind":
            return _given_kind(field, value, ranges, path)
        case "list" if of_kinds(field):
            rows = enumerate(value)
            return [_given_kind(field, r[ONE], ranges, f"{path}[{i}].{ONE}") for i, r in rows]
        case "list" if of_records(field):
            rows = enumerate(value)
            return [given_tree(field.type, r, ranges, f"{path}[{i}].") for i, r in rows]
        case _:
            return value


def _read_back(text: str, path: str) -> Any:
    try:
        return parsed(text)
    except BadInput as error:
        raise BadInput(path, text, "cannot be read back; open the question anew") from error


def _asked_kind(field: Field, value: Tree) -> dict[str, Any]:
    return {"kind": value["kind"]} | asked_tree(_kind(field, value), value)


def _given_kind(field: Field, value: Tree, ranges: Ranges, path: str) -> dict[str, Any]:
    own = given_tree(_kind(field, value), value, ranges, f"{path}.")
    return {"kind": value["kind"]} | own


def _kind(field: Field, value: Tree) -> type[Any]:
    return kinds_of(field)[value["kind"]]
