"""What differs between two states of a record, entry by entry, in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from pourwright.base.field import fields_of
from pourwright.base.record import Record
from pourwright.shop.noun import Noun
from pourwright.web.fact import NameOf, value_text
from pourwright.web.show import Settings

NOTHING = "empty"


@dataclass(frozen=True, slots=True)
class Difference:
    """An entry before and after."""

    label: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class _Leaf:
    path: str
    label: str
    text: str


def differences(
    before: Noun, after: Noun, settings: Settings, name_of: NameOf
) -> tuple[Difference, ...]:
    """Every entry that differs; one that is on one side only is `empty` on the other."""
    old = {leaf.path: leaf for leaf in _leaves(before, settings, name_of)}
    new = {leaf.path: leaf for leaf in _leaves(after, settings, name_of)}
    return tuple(
        Difference(
            (new.get(path) or old[path]).label,
            old[path].text if path in old else NOTHING,
            new[path].text if path in new else NOTHING,
        )
        for path in new | old
        if old.get(path) != new.get(path)
    )


def _leaves(
    record: Record, settings: Settings, name_of: NameOf, path: str = "", label: str = ""
) -> Iterator[_Leaf]:
    """Every entry that holds something, the parts of parts too."""
    for field in fields_of(type(record)):
        value: Any = getattr(record, field.name)
        here, words = f"{path}.{field.name}", f"{label}{field.spec.help}"
        parts = value if field.shape == "list" else ()
        for i, part in enumerate(p for p in parts if isinstance(p, Record)):
            yield from _leaves(part, settings, name_of, f"{here}[{i}]", f"{words} {i + 1}: ")
        if field.shape == "kind" and value is not None:
            yield _Leaf(here, words, value.label)
        if isinstance(value, Record):
            yield from _leaves(value, settings, name_of, here, f"{words}: ")
        elif not any(isinstance(p, Record) for p in parts):
            text = value_text(field, value, settings, name_of)
            if text:
                yield _Leaf(here, words, text)
