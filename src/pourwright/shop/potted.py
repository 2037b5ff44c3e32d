"""What of a lot went back into remelt pots, folded from append-only events."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from pourwright.shop.lot import MG

POTTED = "potted"


@dataclass(frozen=True, slots=True)
class Potted:
    """Plastic of a lot put into a pot; `dose_share` is the heat budget it had used."""

    pot: str
    grams: float
    dose_share: float
    at: str


def potted_body(pot: str, grams: float, dose_share: float) -> dict[str, Any]:
    """The body of a `potted` event: the mass as whole milligrams."""
    return {"pot": pot, "mg": round(grams * MG), "dose_share": round(dose_share, 6)}


def potted(events: Sequence[tuple[str, str, Mapping[str, Any]]]) -> tuple[Potted, ...]:
    """All that (kind, at, body) events put into pots, oldest first."""
    return tuple(
        Potted(body["pot"], body["mg"] / MG, body["dose_share"], at)
        for kind, at, body in events
        if kind == POTTED
    )
