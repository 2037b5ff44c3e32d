"""Answers read back from the JSON they were kept as."""

from __future__ import annotations

import dataclasses
import types
import typing
from typing import Any, TypeVar

A = TypeVar("A")


def revived(answer: type[A], data: Any) -> A:
    """An answer dataclass from its JSON values; a part that came later and may be null is null.

    Raises: KeyError or TypeError for JSON that was not made from that dataclass.
    """
    hints = typing.get_type_hints(answer)
    values = {
        f.name: _value(
            hints[f.name], data.get(f.name) if _may_be_null(hints[f.name]) else data[f.name]
        )
        for f in dataclasses.fields(answer)  # type: ignore[arg-type]
    }
    return answer(**values)


def _may_be_null(hint: Any) -> bool:
    return typing.get_origin(hint) in {types.UnionType, typing.Union}


def _value(hint: Any, data: Any) -> Any:
    origin, arguments = typing.get_origin(hint), typing.get_args(hint)
    if _may_be_null(hint):
        return None if data is None else _value(arguments[0], data)
    if origin is tuple:
        return tuple(_value(arguments[0], item) for item in data)
    if dataclasses.is_dataclass(hint) and isinstance(hint, type):
        return revived(hint, data)
    return data
