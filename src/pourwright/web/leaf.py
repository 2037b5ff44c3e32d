"""One page of a long list: so many rows, and where the others are."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeVar

from pourwright.base.errors import NotFound
from pourwright.web.page import number_in_address

ROWS = 40
_T = TypeVar("_T")


@dataclass(frozen=True, slots=True)
class Leaf:
    """Which rows of a list are shown, counted from one; `earlier` and `later` are its neighbors."""

    number: int
    rows: int

    @property
    def first(self) -> int:
        """The first row shown."""
        return (self.number - 1) * ROWS + 1

    @property
    def last(self) -> int:
        """The last row shown."""
        return min(self.number * ROWS, self.rows)

    @property
    def earlier(self) -> int | None:
        """The page before this one."""
        return self.number - 1 if self.number > 1 else None

    @property
    def later(self) -> int | None:
        """The page after this one."""
        return self.number + 1 if self.last < self.rows else None

    def of(self, rows: Sequence[_T]) -> Sequence[_T]:
        """Those of the rows that are shown."""
        return rows[self.first - 1 : self.last]


def leaf_of(rows: int, typed: str, field: str) -> Leaf:
    """The page an address asks for, the first by default. Raises: BadInput, NotFound."""
    number = number_in_address(typed, field, "a page") if typed else 1
    if number < 1 or (number > 1 and (number - 1) * ROWS >= rows):
        raise NotFound(f"there is no page {number}: the list has {-(-rows // ROWS) or 1} of them")
    return Leaf(number, rows)


def nearest_leaf(rows: int, typed: str, field: str) -> Leaf:
    """The same, or the last page of a list that grew shorter meanwhile. Raises: BadInput."""
    number = number_in_address(typed, field, "a page") if typed else 1
    return Leaf(max(1, min(number, -(-rows // ROWS))), rows)
