"""The answer to a question that the pages ask again and again."""

from __future__ import annotations

import functools
from typing import Any

from pourwright.actions.catalog import named
from pourwright.base.record import Record


@functools.lru_cache(maxsize=384)
def answered(name: str, inputs: Record) -> Any:
    """The same question again, as while somebody types in another box, is not worked out anew."""
    return named(name)(inputs)
