"""What a question is opened with: its example, a JSON another page hands over, or an address."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Iterable, Mapping
from enum import Enum
from typing import Any

from pourwright.actions.strict_json import parsed
from pourwright.base.errors import BadInput
from pourwright.base.field import Field, fields_of
from pourwright.web.form import kinds_of
from pourwright.web.question.tree import Tree

_WORDS = {"true": True, "false": False}


def tree_of_text(text: str) -> dict[str, Any]:
    """The input that a JSON text holds. Raises: BadInput."""
    tree = parsed(text)
    if not isinstance(tree, dict):
        raise BadInput("inputs", text, "must be a JSON object")
    return tree


def tree_of_address(record: type[Any], pairs: Iterable[tuple[str, str]]) -> dict[str, Any]:
    """The input that an address holds: plain values, numbers in the unit their name ends in.

    Raises: BadInput for a name that is not known, or a value an address cannot hold.
    """
    known = {f.name: f for f in fields_of(record)}
    return {name: _of_address(known, name, text) for name, text in pairs}


def fitting(record: type[Any], tree: Tree) -> dict[str, Any]:
    """What of an input a form can show: known fields with values of the right sort."""
    found = (f for f in fields_of(record) if f.name in tree and _fits_or_none(f, tree[f.name]))
    return {f.name: tree[f.name] for f in found}


def _of_address(known: Mapping[str, Field], name: str, text: str) -> object:
    field = known.get(name)
    if field is None:
        raise BadInput(name, text, "is not known here")
    match field.shape:
        case "number" | "band" | "whole":
            return _number(field, text)
        case "flag" if text in _WORDS:
            return _WORDS[text]
        case "text" | "pick":
            return text
        case _:
            raise BadInput(name, text, "cannot be given in an address")


def _number(field: Field, text: str) -> float:
    try:
        value = float(text)
    except ValueError:
        raise BadInput(field.name, text, "is not a number") from None
    return int(value) if field.shape == "whole" and value.is_integer() else value


def _fits(field: Field, value: object) -> bool:
    match field.shape:
        case "number" | "whole":
            return _is_number(value)
        case "band":
            return _is_number(value) or _is_band(value)
        case "flag":
            return isinstance(value, bool)
        case "record":
            return _fits_all(field.type, value)
        case "kind":
            return isinstance(value, Mapping) and _fits_kind(field, value)
        case "list":
            return isinstance(value, list) and all(_fits_row(field, row) for row in value)
        case "text" | "pick" | "file":
            return isinstance(value, str)


def _fits_row(field: Field, row: object) -> bool:
    if field.spec.kinds is not None:
        return isinstance(row, Mapping) and _fits_kind(field, row)
    if dataclasses.is_dataclass(field.type):
        return _fits_all(field.type, row)
    if isinstance(field.type, type) and issubclass(field.type, Enum):
        return isinstance(row, str)
    return _is_number(row)


def _fits_kind(field: Field, value: Tree) -> bool:
    kind = kinds_of(field).get(value.get("kind", ""))
    return kind is not None and _fits_all(kind, {k: v for k, v in value.items() if k != "kind"})


def _fits_all(record: Any, value: object) -> bool:
    """Whether every field of a part that is there fits."""
    if not isinstance(value, Mapping):
        return False
    known = {f.name: f for f in fields_of(record)}
    return value.keys() <= known.keys() and all(
        _fits_or_none(known[k], v) for k, v in value.items()
    )


def _fits_or_none(field: Field, value: object) -> bool:
    return field.optional if value is None else _fits(field, value)


def _is_number(value: object) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool) and math.isfinite(value)


def _is_band(value: object) -> bool:
    return isinstance(value, Mapping) and all(
        _is_number(value.get(end)) for end in ("low", "typical", "high")
    )
