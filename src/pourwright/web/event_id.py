"""The id of an event as a form carries it, so that a repeated send is one event."""

from __future__ import annotations

from pourwright.base.errors import BadInput

_SIGNS = 32


def event_id(text: str) -> str:
    """The id a form carries. Raises: BadInput."""
    if len(text) != _SIGNS or set(text) - set("0123456789abcdef"):
        raise BadInput("event", text, "must be 32 hex digits: load the page again")
    return text
