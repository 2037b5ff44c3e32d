"""A closed list of interchangeable kinds, looked up by the key each kind carries."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import ClassVar, Generic, Protocol, TypeVar

from pourwright.base.errors import BadInput


class HasKey(Protocol):
    """What any kind must carry: its key is stored, so it never changes."""

    key: ClassVar[str]
    label: ClassVar[str]


K = TypeVar("K", bound=HasKey)


class Kinds(Mapping[str, type[K]], Generic[K]):
    """Kinds by key; the key sits on the class, so label and code cannot drift apart."""

    def __init__(self, *classes: type[K]) -> None:
        self._by_key = {c.key: c for c in classes}
        if len(self._by_key) != len(classes):
            raise ValueError("two kinds share a key")

    def __getitem__(self, key: str) -> type[K]:
        return self._by_key[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._by_key)

    def __len__(self) -> int:
        return len(self._by_key)

    def named(self, key: object, field: str = "kind") -> type[K]:
        """The kind of that key.

        Raises: BadInput listing the keys there are.
        """
        if not isinstance(key, str) or key not in self._by_key:
            raise BadInput(field, key, f"must be one of {', '.join(self._by_key)}")
        return self._by_key[key]
