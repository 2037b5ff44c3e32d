"""Records of arrays whose last axis counts the cups: taking some of them, putting them back."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar, cast

import numpy as np
from numpy.typing import NDArray

Record = TypeVar("Record")


def take(record: Record, which: NDArray[Any]) -> Record:
    """The same record for the cups `which` only; a mask or whole numbers of one axis."""
    whole: Any = record
    parts = {f.name: _taken(getattr(whole, f.name), which) for f in fields(whole)}
    return cast("Record", replace(whole, **parts))


def put(record: Record, which: NDArray[Any], part: Record) -> Record:
    """`record` with the cups `which` replaced by those of `part`."""
    whole: Any = record
    parts = {
        f.name: _put(getattr(whole, f.name), which, getattr(part, f.name)) for f in fields(whole)
    }
    return cast("Record", replace(whole, **parts))


def _taken(value: Any, which: NDArray[Any]) -> Any:
    return take(value, which) if is_dataclass(value) else value[..., which]


def _put(value: Any, which: NDArray[Any], part: Any) -> Any:
    if is_dataclass(value):
        return put(value, which, part)
    filled = np.array(value)
    filled[..., which] = part
    return filled
