"""What stands in for a detail that nobody measured."""

from __future__ import annotations

from typing import TypeVar

N = TypeVar("N", int, float)


def or_usual(measured: N | None, usual: N) -> N:
    """The measured value, zero included, or the usual one where it was left out."""
    return usual if measured is None else measured
