"""The machine's clock and its source of fresh ids."""

from __future__ import annotations

import datetime as dt
import secrets
import time


class MachineClock:
    """UTC time of this machine."""

    def now(self) -> str:
        """ISO 8601 to the second, ending in Z."""
        return time.strftime("%Y-%m-%dT%H:%M:%SZ", time.gmtime())

    def moment(self) -> str:
        """ISO 8601 to the millisecond, ending in Z."""
        found = dt.datetime.fromtimestamp(time.time(), dt.UTC)
        return found.isoformat(timespec="milliseconds").replace("+00:00", "Z")


class RandomIds:
    """Ids nobody has used."""

    def fresh(self) -> str:
        """32 hex digits."""
        return secrets.token_hex(16)
