"""The way from a plan or a sheet to the page of its mold."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any
from urllib.parse import urlencode

from pourwright.actions.mold_case import MoldEntry
from pourwright.actions.plan_fill import Fills
from pourwright.web.form import texts_of
from pourwright.web.show import Settings


def mold_link(fills: Fills | None, settings: Settings) -> str:
    """The mold with the push of the plan; empty where nothing can be said of it."""
    if fills is None:
        return ""
    return f"/molds/{fills.mold}?{urlencode(texts_of(MoldEntry, fills.entry, settings.system))}"


def mold_of_sheet(draft: Mapping[str, Any]) -> str:
    """The mold a frozen sheet was made for; empty where its size was typed."""
    return f"/molds/{draft['mold']}" if draft.get("mold") else ""
