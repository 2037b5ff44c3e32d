"""A poured lot: what came out, folded from append-only events."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from pourwright.base.errors import BadInput
from pourwright.base.field import flag, number, parts, text
from pourwright.base.record import Record, from_json, to_json

COUNTED = "counted"
PHOTOGRAPHED = "photographed"
MG = 1000
# Good baits put on the scale together, so that a coarse scale still tells what one weighs.
BAITS_WEIGHED = 5
# What an event may carry of its sending, beside what it says.
SENT_BY, SENT_LATE_S, CLOCK_OFF_S = "by", "sent_late_s", "clock_off_s"
META = (SENT_BY, SENT_LATE_S, CLOCK_OFF_S)


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatReading(Record):
    """What the thermometer read after one burst."""

    cup: int = number("Cup", low=1, high=500, default=1)
    on_s: float = number("Seconds on in this burst", low=1, high=1200)
    read_c: float = number("Read", low=20, high=260)
    stirred: bool = flag("Stirred before the reading", default=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class LotEntry(Record):
    """What came out of a batch. Entering it again corrects it; the earlier entry is kept."""

    shots: int = number("Shots made", low=0, high=20_000)
    good: int = number("Good baits", low=0, high=100_000)
    trimmed: int = number("Of the good, trimmed first", low=0, high=100_000, default=0)
    flash: int = number("Flash", low=0, high=100_000, default=0)
    short: int = number("Short", low=0, high=100_000, default=0)
    dent: int = number("Dent", low=0, high=100_000, default=0)
    bubble: int = number("Bubble", low=0, high=100_000, default=0)
    torn: int = number("Torn", low=0, high=100_000, default=0)
    other: int = number("Other rejects", low=0, high=100_000, default=0)
    warmup: int = number("Baits of the warm-up shots", low=0, high=100_000, default=0)
    five_g: float | None = number("Weight of five good baits", low=0.1, high=3000, default=None)
    remelt_g: float | None = number(
        "Rejects and leftover plastic kept for remelt", low=0, high=50_000, default=None
    )
    sprue_g: float | None = number("Sprue kept for remelt", low=0, high=50_000, default=None)
    minutes: float | None = number("Minutes it took", low=1, high=5000, default=None)
    readings: tuple[HeatReading, ...] = parts("Heat readings", most=200)
    note: str = text("Note", most=1000, default="")

    def check(self) -> None:
        """Refuse a bait weight without baits, and more trimmed than good."""
        if self.trimmed > self.good:
            raise BadInput("trimmed", self.trimmed, f"must be at most the {self.good} good")
        if self.five_g is not None and self.good < 1:
            raise BadInput("five_g", self.five_g, "needs good baits to weigh")

    @property
    def bait_g(self) -> float | None:
        """What one good bait weighs; none where they were not weighed."""
        return None if self.five_g is None else self.five_g / BAITS_WEIGHED

    @property
    def rejected(self) -> int:
        """Baits that were no good."""
        return self.flash + self.short + self.dent + self.bubble + self.torn + self.other


@dataclass(frozen=True, slots=True)
class Lot:
    """A lot as its events tell it: the latest entry, every picture, how often it was corrected."""

    code: str
    entry: LotEntry | None
    entered_at: str
    corrections: int
    photos: tuple[str, ...]


def body_of(entry: LotEntry) -> dict[str, Any]:
    """The body of a `counted` event: masses as whole milligrams."""
    body = to_json(entry)
    for name in ("five_g", "remelt_g", "sprue_g"):
        grams = body.pop(name)
        body[name.removesuffix("_g") + "_mg"] = None if grams is None else round(grams * MG)
    return dict(body)


def entry_of(body: Mapping[str, Any]) -> LotEntry:
    """The entry a `counted` event holds."""
    plain = {name: value for name, value in body.items() if name not in META}
    for name in ("five", "remelt", "sprue"):
        mg = plain.pop(f"{name}_mg")
        plain[f"{name}_g"] = None if mg is None else mg / MG
    return from_json(LotEntry, plain)


def folded(code: str, events: Sequence[tuple[str, str, Mapping[str, Any]]]) -> Lot:
    """The lot that (kind, at, body) events tell, oldest first."""
    lot = Lot(code, None, "", -1, ())
    for kind, at, body in events:
        if kind == COUNTED:
            lot = Lot(code, entry_of(body), at, lot.corrections + 1, lot.photos)
        elif kind == PHOTOGRAPHED:
            lot = Lot(
                code, lot.entry, lot.entered_at, lot.corrections, (*lot.photos, body["photo"])
            )
    return lot if lot.entry else Lot(code, None, "", 0, lot.photos)
