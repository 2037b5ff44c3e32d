"""Plain JSON inputs of a declared record, drawn at and between the ends of what it takes."""

from __future__ import annotations

import math
from typing import Any

from hypothesis import strategies as st

from pourwright.base.field import Field, Spec, fields_of

# Ends of a field that declares none.
_WIDE = 1e9


def inputs_of(record: type[Any], *, most: int = 4) -> st.SearchStrategy[dict[str, Any]]:
    """Inputs of that record; lists hold at most `most` entries, or their least where it is more."""
    fields = {f.name: f for f in fields_of(record)}
    drawn = {name: _value(f, most) for name, f in fields.items()}
    return st.fixed_dictionaries(
        {name: drawn[name] for name, f in fields.items() if f.required},
        optional={name: drawn[name] for name, f in fields.items() if not f.required},
    )


def _value(field: Field, most: int) -> st.SearchStrategy[Any]:
    if field.shape == "list":
        least = field.spec.least
        return st.lists(_one(field, most), min_size=least, max_size=max(least, most))
    return _one(field, most)


def _one(field: Field, most: int) -> st.SearchStrategy[Any]:
    low, high = max(field.spec.low, -_WIDE), min(field.spec.high, _WIDE)
    match field.shape:
        case "flag":
            return st.booleans()
        case "text":
            return st.sampled_from(_words(field.spec))
        case "pick":
            return st.sampled_from([it.value for it in field.type])
        case "band":
            return st.lists(_numbers(field, low, high), min_size=3, max_size=3).map(_band)
        case "whole":
            return _whole(low, high)
        case "number":
            return _numbers(field, low, high)
        case "record":
            return inputs_of(field.type, most=most)
        case _:
            if field.type in {int, float}:
                return _whole(low, high) if field.type is int else _floats(low, high)
            return inputs_of(field.type, most=most)


def _words(spec: Spec) -> list[str]:
    said = ["a", "b", "a" * spec.most] if not spec.pattern else ["2026-02-28", "2026-12-31"]
    return said if spec.least else ["", *said]


def _numbers(field: Field, low: float, high: float) -> st.SearchStrategy[float]:
    """Money in whole cents, as people type it; other numbers as they come."""
    drawn = _floats(low, high)
    return drawn.map(lambda x: max(low, round(x, 2))) if field.name.endswith("_money") else drawn


def _whole(low: float, high: float) -> st.SearchStrategy[int]:
    first, last = math.ceil(low), math.floor(high)
    return st.sampled_from([first, last, min(first + 1, last)]) | st.integers(first, last)


def _floats(low: float, high: float) -> st.SearchStrategy[float]:
    ends = [low, high, min(low + 1, high), low + (high - low) * 1e-6]
    return st.sampled_from(ends) | st.floats(low, high, allow_nan=False)


def _band(ends: list[float]) -> dict[str, float]:
    return dict(zip(("low", "typical", "high"), sorted(ends), strict=True))
