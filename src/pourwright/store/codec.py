"""The one spelling of JSON in the store."""

from __future__ import annotations

import json


def canonical(value: object) -> str:
    """JSON with one spelling: sorted keys, no spaces, UTF-8."""
    return json.dumps(
        value, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False
    )
