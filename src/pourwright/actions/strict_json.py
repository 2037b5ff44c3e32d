"""Read JSON strictly: no NaN, no infinity, no key twice."""

from __future__ import annotations

import json
from typing import Any

from pourwright.base.errors import BadInput


def parsed(text: str | bytes) -> object:
    """The plain values a JSON text holds.

    Raises: BadInput for text that is no JSON, names a key twice, or holds NaN or an infinity.
    """
    plain = text if isinstance(text, str) else _decoded(text)
    try:
        return json.loads(plain, parse_constant=_refused, object_pairs_hook=_unique)
    except json.JSONDecodeError as error:
        where = f"line {error.lineno}, column {error.colno}"
        raise BadInput("input", plain[:60], f"is not JSON: {error.msg} at {where}") from error
    except (ValueError, RecursionError) as error:
        raise BadInput(
            "input", plain[:60], "holds a number or a nesting too big to read"
        ) from error


def _decoded(text: bytes) -> str:
    try:
        return text.decode()
    except UnicodeDecodeError as error:
        raise BadInput("input", text[:20], "must be UTF-8 text") from error


def _refused(token: str) -> float:
    raise BadInput("input", token, "must not hold NaN or an infinity")


def _unique(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        names = [name for name, _ in pairs]
        twice = next(n for n in names if names.count(n) > 1)
        raise BadInput(twice, None, "is given twice")
    return found
