"""A frozen batch sheet: numbered, immutable, carrying everything it was computed from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Sheet:
    """A batch sheet as it was frozen; an old sheet never changes because a formula did.

    `draft` is what the person chose, `request` the numbers the plan was computed from,
    `plan` the computed batch, all as plain JSON values; `version` names the calculations.
    """

    number: int
    code: str
    frozen_at: str
    version: str
    title: str
    draft: Mapping[str, Any]
    request: Mapping[str, Any]
    plan: Mapping[str, Any]
