"""Forms: a record as flat texts by path, and back to the JSON values `from_json` reads.

Paths are those of `BadInput` (`layers[0].doses[1].material`). Beside its values a form carries
`path#` (rows of a list), `path?` (an optional part is there), `path@` (the kind whose fields are
on the page) and `@units` (the system the numbers were shown in).
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, cast

from pourwright.base.errors import BadInput
from pourwright.base.field import Field, fields_of
from pourwright.base.record import from_json, to_json
from pourwright.base.units import System
from pourwright.web.number_text import (
    NotANumber,
    kept_in,
    kept_unit,
    number_of,
    read_unit,
    typed_in,
)
from pourwright.web.show import Settings, label_of, limits

UNITS_NAME = "@units"
Typed = Mapping[str, str]
Tree = dict[str, Any]
FILL_IN = "is missing: fill it in"


@dataclass(frozen=True, slots=True)
class Parsed:
    """What a sent form holds: the record, or the problems by path."""

    record: Any
    problems: Mapping[str, str]


def kinds_of(entry: Field) -> Mapping[str, type[Any]]:
    """The kinds a part may be of, by key."""
    found: Mapping[str, type[Any]] = entry.spec.kinds or {}
    return found


def texts_of(record: type[Any], value: object | None, system: System) -> dict[str, str]:
    """A record as a form shows it; without a value, as a new form shows it."""
    tree = None if value is None else to_json(value)
    return dict(_texts(record, tree, "", system)) | {UNITS_NAME: system.value}


def fresh_row(entry: Field, path: str, system: System) -> dict[str, str]:
    """The texts of a new row of a list, or of a part just added."""
    if dataclasses.is_dataclass(entry.type):
        return dict(_texts(cast("type[Any]", entry.type), None, f"{path}.", system))
    return {path: ""}


def fresh_kind(entry: Field, key: str, path: str, system: System) -> dict[str, str]:
    """The texts of a part whose kind was just chosen."""
    return dict(_kind_texts(entry, {"kind": key}, path, system))


def typed_default(entry: Field, system: System) -> str:
    """The default of a number, as a form shows it; empty where there is none."""
    if not isinstance(entry.default, (int, float)):
        return ""
    return typed_in(entry.default, entry, system)


def parsed(record: type[Any], typed: Typed, settings: Settings, kept: object = None) -> Parsed:
    """The record a form holds; `kept` is the stored one, whose numbers stay exact if unchanged."""
    sent_in = typed.get(UNITS_NAME, settings.system.value)
    system = System(sent_in) if sent_in in set(System) else settings.system
    reader = _Reader(
        typed,
        dataclasses.replace(settings, system=system),
        {} if kept is None else dict(_exact(type(kept), to_json(kept), "", system)),
    )
    tree = reader.record(record, "")
    if reader.problems:
        return Parsed(None, reader.problems)
    try:
        return Parsed(from_json(record, tree), {})
    except BadInput as error:
        return Parsed(None, {error.field: error.why})


def system_of(typed: Typed, otherwise: System) -> System:
    """The system of units a form was shown in."""
    sent = typed.get(UNITS_NAME)
    return System(sent) if sent in set(System) else otherwise


@dataclass(slots=True)
class _Reader:
    typed: Typed
    settings: Settings
    exact: Mapping[tuple[str, str], float]
    problems: dict[str, str] = field(default_factory=dict)

    def record(self, record: type[Any], prefix: str) -> Tree:
        tree: Tree = {}
        for entry in fields_of(record):
            path = prefix + entry.name
            present, value = self.value(entry, path)
            if present:
                tree[entry.name] = value
        return tree

    def value(self, entry: Field, path: str) -> tuple[bool, object]:
        """Whether the form says anything for a field, and what."""
        match entry.shape:
            case "flag":
                return True, path in self.typed
            case "record":
                if entry.optional and not self.typed.get(f"{path}?"):
                    return True, None
                return True, self.record(entry.type, f"{path}.")
            case "kind":
                return True, self.kind(entry, path)
            case "list":
                rows = range(rows_of(self.typed, path, entry.spec.most))
                return True, [self.row(entry, f"{path}[{i}]") for i in rows]
            case "band":
                raise TypeError(f"{path}: no form holds a range")
            case _:
                return self.leaf(entry, path)

    def leaf(self, entry: Field, path: str) -> tuple[bool, object]:
        text = self.typed.get(path, "").replace("\r\n", "\n").strip()
        if not text:
            if entry.required:
                self.problems[path] = FILL_IN
            return entry.optional, None
        if entry.shape in {"number", "whole"}:
            return True, self.number(entry, path, text)
        return True, text

    def row(self, entry: Field, path: str) -> object:
        if dataclasses.is_dataclass(entry.type):
            return self.record(cast("type[Any]", entry.type), f"{path}.")
        text = self.typed.get(path, "").strip()
        if not text:
            self.problems[path] = FILL_IN
        return self.number(entry, path, text) if text else None

    def kind(self, entry: Field, path: str) -> object:
        key = self.typed.get(f"{path}.kind", "")
        kinds = kinds_of(entry)
        if not key:
            if not entry.optional:
                self.problems[f"{path}.kind"] = "is missing: choose one"
            return None
        if key not in kinds:
            self.problems[f"{path}.kind"] = f"must be one of {', '.join(kinds)}"
            return None
        return {"kind": key} | self.record(kinds[key], f"{path}.")

    def number(self, entry: Field, path: str, text: str) -> object:
        read = read_unit(entry, self.settings.system)
        try:
            given = number_of(text, unit=label_of(read, self.settings))
        except NotANumber as error:
            self.problems[path] = str(error)
            return None
        exact = self.exact.get((_pattern(path), text))
        value = kept_in(given, entry, self.settings.system) if exact is None else exact
        if not entry.spec.low <= value <= entry.spec.high:
            self.problems[path] = limits(
                entry.spec.low, entry.spec.high, kept_unit(entry), self.settings, read
            )
        elif entry.shape == "whole":
            if value != int(value):
                self.problems[path] = "must be a whole number"
            return int(value)
        return value


def rows_of(typed: Typed, path: str, most: int) -> int:
    """How many rows a list has in a form; never more than the list may hold."""
    text = typed.get(f"{path}#", "0")
    return min(int(text), most) if re.fullmatch(r"[0-9]{1,4}", text) else 0


def _texts(
    record: type[Any], tree: Mapping[str, Any] | None, prefix: str, system: System
) -> Iterator[tuple[str, str]]:
    for entry in fields_of(record):
        fresh = tree is None or entry.name not in tree
        default = None if entry.required else to_json(entry.default)
        value = default if fresh else cast("Mapping[str, Any]", tree)[entry.name]
        yield from _field_texts(entry, value, prefix + entry.name, system)


def _field_texts(entry: Field, value: Any, path: str, system: System) -> Iterator[tuple[str, str]]:
    match entry.shape:
        case "number" | "whole":
            yield path, "" if value is None else typed_in(value, entry, system)
        case "flag":
            if value:
                yield path, "on"
        case "record":
            if entry.optional:
                yield f"{path}?", "" if value is None else "1"
            if value is not None or not entry.optional:
                yield from _texts(entry.type, value, f"{path}.", system)
        case "kind":
            yield from _kind_texts(entry, value, path, system)
        case "list":
            yield from _list_texts(entry, value, path, system)
        case _:
            yield path, "" if value is None else str(value)


def _kind_texts(
    entry: Field, value: Mapping[str, Any] | None, path: str, system: System
) -> Iterator[tuple[str, str]]:
    key = "" if value is None else str(value["kind"])
    yield f"{path}.kind", key
    yield f"{path}@", key
    kinds = kinds_of(entry)
    if key in kinds:
        yield from _texts(kinds[key], value, f"{path}.", system)


def _list_texts(
    entry: Field, value: list[Any] | None, path: str, system: System
) -> Iterator[tuple[str, str]]:
    rows = [None] * entry.spec.least if value is None else value
    yield f"{path}#", str(len(rows))
    for i, row in enumerate(rows):
        if row is None:
            yield from fresh_row(entry, f"{path}[{i}]", system).items()
        elif dataclasses.is_dataclass(entry.type):
            yield from _texts(cast("type[Any]", entry.type), row, f"{path}[{i}].", system)
        else:
            yield f"{path}[{i}]", typed_in(row, entry, system)


def _exact(
    record: type[Any], tree: Mapping[str, Any], prefix: str, system: System
) -> Iterator[tuple[tuple[str, str], float]]:
    """Every stored number under the text that shows it, rows of a list alike."""
    for entry in fields_of(record):
        path, value = prefix + entry.name, tree[entry.name]
        if entry.shape in {"number", "whole"} and value is not None:
            yield (_pattern(path), typed_in(value, entry, system)), value
        elif entry.shape == "record" and value is not None:
            yield from _exact(entry.type, value, f"{path}.", system)
        elif entry.shape == "kind" and value is not None:
            yield from _exact(kinds_of(entry)[value["kind"]], value, f"{path}.", system)
        elif entry.shape == "list":
            for row in value:
                if dataclasses.is_dataclass(entry.type):
                    yield from _exact(cast("type[Any]", entry.type), row, f"{path}[].", system)
                else:
                    shown_as = typed_in(row, entry, system)
                    yield (_pattern(f"{path}[]"), shown_as), row


def _pattern(path: str) -> str:
    return re.sub(r"\[[0-9]*\]", "[]", path)
