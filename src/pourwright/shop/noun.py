"""What every stored record shares."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from pourwright.base.field import text
from pourwright.base.record import Record


@dataclass(frozen=True, slots=True, kw_only=True)
class Noun(Record):
    """A named thing a person keeps on the bench, the shelf or the books.

    `key` is stored and never changes; `place` says which page lists the sort.
    """

    key: ClassVar[str] = ""
    label: ClassVar[str] = ""
    plural: ClassVar[str] = ""
    place: ClassVar[str] = ""

    name: str = text("What you call it", most=60)
