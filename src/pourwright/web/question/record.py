"""The record a person fills in for a calculation: its input, ranges as one number."""

from __future__ import annotations

import dataclasses
import functools
import types
from typing import Any

from pourwright.base.band import Band
from pourwright.base.field import Field, Spec, kind
from pourwright.base.kind import Kinds
from pourwright.base.record import Record, from_json, to_json
from pourwright.web.form import kinds_of
from pourwright.web.order import in_order
from pourwright.web.question.shape import CARRIED_TEXT, ONE, carried, of_kinds, of_records
from pourwright.web.question.tree import asked_tree


def asked_record(record: type[Any]) -> type[Any]:
    """The record whose form a person fills in; paths and units are those of the input."""
    hashable: Any = record
    return _asked_record(hashable)


@functools.cache
def _asked_record(record: Any) -> type[Any]:
    made = [_asked_field(f) for f in in_order(record)]
    words = {k: getattr(record, k) for k in ("key", "label") if hasattr(record, k)}
    return dataclasses.make_dataclass(
        record.__name__, made, bases=(Record,), namespace=words, frozen=True, kw_only=True
    )


def _asked_field(field: Field) -> tuple[str, Any, Any]:
    spec, hint = _asked_spec(field), _asked_hint(field)
    optional = field.optional and not carried(field)
    made: Any = dataclasses.field(default=_asked_default(field), metadata={"spec": spec})
    return field.name, hint | None if optional else hint, made


def _asked_spec(field: Field) -> Spec:
    if carried(field):
        return Spec(field.spec.help, label=field.spec.label, most=CARRIED_TEXT)
    if field.shape == "kind":
        return dataclasses.replace(field.spec, kinds=_asked_kinds(field))
    return dataclasses.replace(field.spec, kinds=None)


def _asked_hint(field: Field) -> Any:
    if carried(field):
        return str
    match field.shape:
        case "band":
            return float
        case "record":
            return asked_record(field.type)
        case "list":
            return types.GenericAlias(tuple, (_asked_row(field), ...))
        case _:
            return field.type


def _asked_row(field: Field) -> Any:
    """What a list holds; a row of several kinds is a record whose one part they are."""
    if of_kinds(field):
        made: Any = kind("What it is", _asked_kinds(field))
        row = [(ONE, Record, made)]
        return dataclasses.make_dataclass("Row", row, bases=(Record,), frozen=True, kw_only=True)
    return asked_record(field.type) if of_records(field) else field.type


def _asked_kinds(field: Field) -> Kinds[Any]:
    return Kinds(*(asked_record(c) for c in kinds_of(field).values()))


def _asked_default(field: Field) -> Any:
    if field.required:
        return dataclasses.MISSING
    if carried(field):
        return ""
    match field.default:
        case Band() as band:
            return band.typical
        case Record() as record:
            return _asked_of(record)
        case tuple() as rows if rows and isinstance(rows[0], Record):
            raise TypeError(f"{field.name}: no form opens with rows of its own")
        case value:
            return value


def _asked_of(record: Record) -> Any:
    kind = type(record)
    tree = to_json(record)
    tree.pop("kind", None)
    return from_json(asked_record(kind), asked_tree(kind, tree))
