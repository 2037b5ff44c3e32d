"""The way back to the same pages of the rack's two lists."""

from __future__ import annotations

from collections.abc import Mapping
from urllib.parse import urlencode

LISTS = ("loose", "bags")


def rack_way(came: Mapping[str, str], **more: str) -> str:
    """The address of the rack from which a form or an address `came`, with what was done there."""
    pages = {name: came[name] for name in LISTS if came.get(name, "") not in {"", "1"}}
    query = urlencode({**more, **pages})
    return f"/rack?{query}" if query else "/rack"
