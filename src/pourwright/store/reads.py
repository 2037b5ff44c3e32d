"""What was read of rows that never change, kept under the hash of the event that made them."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Iterable, Mapping
from threading import Lock
from typing import Generic, TypeVar

Key = TypeVar("Key")
Value = TypeVar("Value")


class Reads(Generic[Key, Value]):
    """The values read last, at most `most` of them; several threads may ask at once.

    A key holds a hash of the content, so that a value is right in whichever store it is asked of.
    """

    def __init__(self, most: int) -> None:
        self._most = most
        self._kept: OrderedDict[Key, Value] = OrderedDict()
        self._lock = Lock()

    def of(
        self, keys: Iterable[Key], read: Callable[[list[Key]], Mapping[Key, Value]]
    ) -> dict[Key, Value]:
        """The values of keys, in their order; those not kept are read together."""
        wanted = tuple(keys)
        with self._lock:
            known = {key: self._kept[key] for key in wanted if key in self._kept}
        fresh = (
            read([key for key in wanted if key not in known]) if len(known) < len(wanted) else {}
        )
        with self._lock:
            for key in wanted:
                self._kept[key] = known[key] if key in known else fresh[key]
                self._kept.move_to_end(key)
            while len(self._kept) > self._most:
                self._kept.popitem(last=False)
        return {key: known[key] if key in known else fresh[key] for key in wanted}
