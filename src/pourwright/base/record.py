"""Records: frozen, checked on creation, and turned to and from plain JSON values."""

from __future__ import annotations

import base64
import binascii
import dataclasses
import math
import re
from collections.abc import Mapping, Sequence
from enum import Enum
from typing import Any, TypeVar, cast

import numpy as np

from pourwright.base.band import Band, exact
from pourwright.base.errors import BadInput
from pourwright.base.field import Field, fields_of
from pourwright.base.file import NO_READERS, Readers
from pourwright.base.mesh import Mesh
from pourwright.base.picture import Picture
from pourwright.base.pixels import Pixels

R = TypeVar("R")
# What a text may have to look like, as people write it.
_EXAMPLES = ("2026-04-01", "14:30", "#3a7f2c")


class Record:
    """Base of every entered record: a frozen dataclass that refuses nonsense.

    Declare with `@dataclass(frozen=True, slots=True, kw_only=True)` and the makers of
    `base.field`. Raises BadInput naming the first field that is wrong.
    """

    __slots__ = ()

    def __post_init__(self) -> None:
        for field in fields_of(type(self)):
            object.__setattr__(self, field.name, _accepted(field, getattr(self, field.name)))
        self.check()

    def check(self) -> None:
        """Refuse values that are fine alone but not together; kinds override this."""


def from_json(
    record: type[R], data: object, where: str = "", *, readers: Readers = NO_READERS
) -> R:
    """A record from plain JSON values; `readers` open the files among them.

    Raises: BadInput naming, by its path, a field that is missing, unknown or wrong.
    """
    if not isinstance(data, Mapping):
        raise BadInput(where or "input", data, "must be a JSON object")
    known = {f.name: f for f in fields_of(record)}
    for name in data:
        if name not in known:
            close = ", ".join(known)
            raise BadInput(
                _path(where, str(name)), data[name], f"is not known here; fields: {close}"
            )
    values: dict[str, object] = {}
    for name, field in known.items():
        path = _path(where, name)
        if name in data:
            values[name] = _read(field, data[name], path, readers)
        elif field.required:
            raise BadInput(path, None, "is required")
    try:
        return record(**values)
    except BadInput as error:
        if not where:
            raise
        raise BadInput(_path(where, error.field), error.value, error.why) from error


def to_json(value: object) -> Any:
    """Plain JSON values of a record, an answer or any of their parts."""
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, (Picture, Mesh)):
        raise TypeError(f"{value.called} is taken in, never given out")
    if isinstance(value, Pixels):
        return base64.b64encode(value.png()).decode()
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        key = getattr(type(value), "key", None)
        tag = {"kind": key} if isinstance(key, str) else {}
        return tag | {f.name: to_json(getattr(value, f.name)) for f in dataclasses.fields(value)}
    if isinstance(value, np.ndarray):
        return to_json(value.tolist())
    if isinstance(value, np.generic):
        return to_json(value.item())
    if isinstance(value, Mapping):
        return {str(k): to_json(v) for k, v in value.items()}
    if isinstance(value, Sequence) and not isinstance(value, str):
        return [to_json(v) for v in value]
    if isinstance(value, float) and not math.isfinite(value):
        raise ValueError("an answer holds a number that is not finite")
    return value


def assumed(record: object) -> tuple[Field, ...]:
    """The fields left out of a record whose typical bands stand in."""
    return tuple(
        f
        for f in fields_of(type(record))
        if f.spec.doubt is not None and getattr(record, f.name) is None
    )


def _path(where: str, name: str) -> str:
    return f"{where}.{name}" if where else name


def _read(field: Field, value: object, path: str, readers: Readers) -> object:
    if value is None:
        if field.optional:
            return None
        raise BadInput(path, value, "is required")
    match field.shape:
        case "record":
            return from_json(field.type, value, path, readers=readers)
        case "kind":
            return _read_kind(field, value, path, readers)
        case "file":
            return _read_file(field, value, path, readers)
        case "list":
            if not isinstance(value, (list, tuple)):
                raise BadInput(path, value, "must be a list")
            return tuple(_read_item(field, v, f"{path}[{i}]", readers) for i, v in enumerate(value))
        case "band":
            return _read_band(value, path)
        case _:
            return value


def _read_item(field: Field, value: object, path: str, readers: Readers) -> object:
    if field.spec.kinds is not None:
        return _read_kind(field, value, path, readers)
    if dataclasses.is_dataclass(field.type):
        return from_json(cast("type[Any]", field.type), value, path, readers=readers)
    return value


def _read_kind(field: Field, value: object, path: str, readers: Readers) -> object:
    if not isinstance(value, Mapping):
        raise BadInput(path, value, "must be a JSON object")
    kinds = field.spec.kinds
    if kinds is None:
        raise TypeError(f"{field.name} has no kinds")
    rest = {k: v for k, v in value.items() if k != "kind"}
    named = kinds.named(value.get("kind"), f"{path}.kind")
    return from_json(named, rest, path, readers=readers)


def _read_file(field: Field, value: object, path: str, readers: Readers) -> object:
    called = field.type.called
    if not isinstance(value, str) or not value:
        raise BadInput(path, None, f"must be the file of {called} as base64 text")
    if field.type not in readers:
        raise BadInput(path, called, "cannot be opened here; nobody handed over a way to")
    try:
        return readers[field.type](base64.b64decode(value, validate=True))
    except binascii.Error as error:
        raise BadInput(path, value[:20], "is not base64 text") from error
    except BadInput as error:
        raise BadInput(path, error.value, error.why) from error


def _read_band(value: object, path: str) -> object:
    if not isinstance(value, Mapping):
        return value
    if set(value) != {"low", "typical", "high"}:
        raise BadInput(path, dict(value), "must be a number or hold low, typical and high")
    ends = [_finite(value[k], f"{path}.{k}") for k in ("low", "typical", "high")]
    try:
        return Band(*ends)
    except ValueError as error:
        raise BadInput(path, dict(value), "needs low <= typical <= high") from error


def _accepted(field: Field, value: object) -> object:
    """The value as the record keeps it, or a refusal."""
    if value is None:
        if field.optional:
            return None
        raise BadInput(field.name, value, "is required")
    match field.shape:
        case "number":
            return _within(field, _finite(value, field.name))
        case "whole":
            return _within(field, _whole(value, field.name))
        case "band":
            return _accepted_band(field, value)
        case "flag":
            if not isinstance(value, bool):
                raise BadInput(field.name, value, "must be true or false")
            return value
        case "text":
            return _accepted_text(field, value)
        case "pick":
            return _accepted_pick(field, value)
        case "list":
            return _accepted_list(field, value)
        case "record" | "kind" | "file":
            return _accepted_part(field, value)


def _finite(value: object, name: str) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float, np.integer, np.floating)):
        raise BadInput(name, value, "must be a number")
    try:
        number = float(value)
    except OverflowError as error:
        raise BadInput(name, value, "must be a finite number") from error
    if not math.isfinite(number):
        raise BadInput(name, number, "must be a finite number")
    return number


def _whole(value: object, name: str) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise BadInput(name, value, "must be a whole number")
    return value


def _within(field: Field, value: float) -> float:
    spec = field.spec
    if not spec.low <= value <= spec.high:
        unit = f" {field.unit.label}" if field.unit else ""
        raise BadInput(
            field.name, value, f"must lie between {spec.low:.12g} and {spec.high:.12g}{unit}"
        )
    return value


def _accepted_band(field: Field, value: object) -> Band:
    given = value if isinstance(value, Band) else exact(_finite(value, field.name))
    for end in (given.low, given.high):
        _within(field, end)
    return given


def _accepted_text(field: Field, value: object) -> str:
    spec = field.spec
    if not isinstance(value, str):
        raise BadInput(field.name, value, "must be text")
    if not spec.least <= len(value) <= spec.most:
        raise BadInput(field.name, value, f"must have {spec.least} to {spec.most} characters")
    if any(ord(c) < 32 and c not in "\n\t" for c in value):
        raise BadInput(field.name, value, "must not hold control characters")
    if spec.pattern and not re.fullmatch(spec.pattern, value):
        raise BadInput(field.name, value, f"must look like {_example(spec.pattern)}")
    return value


def _example(pattern: str) -> str:
    """One that fits, for those who read no patterns."""
    return next((it for it in _EXAMPLES if re.fullmatch(pattern, it)), pattern)


def _accepted_pick(field: Field, value: object) -> Enum:
    options = cast("type[Enum]", field.type)
    try:
        return options(value)
    except ValueError as error:
        words = ", ".join(str(o.value) for o in options)
        raise BadInput(field.name, value, f"must be one of {words}") from error


def _accepted_list(field: Field, value: object) -> tuple[object, ...]:
    if not isinstance(value, (tuple, list)):
        raise BadInput(field.name, value, "must be a list")
    if not field.spec.least <= len(value) <= field.spec.most:
        why = f"must have {field.spec.least} to {field.spec.most} entries"
        raise BadInput(field.name, len(value), why)
    if field.type is float:
        return tuple(_within(field, _finite(v, f"{field.name}[{i}]")) for i, v in enumerate(value))
    if field.type is int:
        return tuple(_within(field, _whole(v, f"{field.name}[{i}]")) for i, v in enumerate(value))
    if isinstance(field.type, type) and issubclass(field.type, Enum):
        return tuple(_accepted_pick(field, item) for item in value)
    if isinstance(field.type, type):
        for i, item in enumerate(value):
            if not isinstance(item, field.type):
                raise BadInput(f"{field.name}[{i}]", item, f"must be a {field.type.__name__}")
    return tuple(value)


def _accepted_part(field: Field, value: object) -> object:
    expected = tuple(field.spec.kinds.values()) if field.spec.kinds else (field.type,)
    if not isinstance(value, expected):
        words = " or ".join(c.__name__ for c in expected)
        raise BadInput(field.name, value, f"must be a {words}")
    return value
