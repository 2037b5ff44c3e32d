"""The errors every room may raise, named by who can put them right."""

from __future__ import annotations

import math
from typing import ClassVar


class PourwrightError(Exception):
    """Root of every error raised on purpose."""

    code: ClassVar[str] = "error"
    http_status: ClassVar[int] = 500
    exit_code: ClassVar[int] = 1

    def as_json(self) -> dict[str, object]:
        """The one shape in which any face reports an error."""
        return {"error": self.code, "message": str(self)}


class BadInput(PourwrightError):
    """The person can fix it: a value they gave is impossible or out of range."""

    code = "bad_input"
    http_status = 422
    exit_code = 2

    def __init__(self, field: str, value: object, why: str, *, label: str = "") -> None:
        """`label` is what a page calls the field; programs go by its name."""
        super().__init__(f"{label or field}: {why} (got {shortened(value)})")
        self.field = field
        self.value = value
        self.why = why

    def as_json(self) -> dict[str, object]:
        """The shared shape with the field, the value and the reason."""
        return super().as_json() | {
            "field": self.field,
            "value": _plain(self.value),
            "why": self.why,
        }


class NotFound(PourwrightError):
    """The thing asked for is not in the store."""

    code = "not_found"
    http_status = 404
    exit_code = 3


class Conflict(PourwrightError):
    """The thing changed, or ran out, since the person last looked."""

    code = "conflict"
    http_status = 409
    exit_code = 4


class NoAnswer(PourwrightError):
    """The sums have no solution for these inputs; the message says which limit bit."""

    code = "no_answer"
    http_status = 422
    exit_code = 5


def shortened(value: object, most: int = 60) -> str:
    """A value as text, cut so that a huge input cannot flood a message."""
    text = repr(value)
    return text if len(text) <= most else text[: most - 1] + "…"


def _plain(value: object) -> object:
    if isinstance(value, float) and not math.isfinite(value):
        return str(value)
    return value if isinstance(value, (bool, int, float, type(None))) else shortened(value)
