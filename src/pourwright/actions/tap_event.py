"""The event a tap at the bench becomes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from pourwright.actions.count_pour import counted_entry
from pourwright.actions.told_pour import ToldPour, with_pour
from pourwright.base.errors import BadInput
from pourwright.base.record import Record, from_json, to_json
from pourwright.bench.cup_story import WORKED, Happening, worked_body
from pourwright.bench.fold_pour import after
from pourwright.bench.pour_setup import PourSetup
from pourwright.bench.reading import reading_entry
from pourwright.bench.tap_body import (
    BODIES,
    CARD,
    COUNT_CLOSED,
    READ,
    CupRead,
    Dried,
    Dripped,
    Filled,
    OfCup,
    PartIn,
    Tinted,
)
from pourwright.bench.tap_kind import FILLED
from pourwright.shop.lot import COUNTED, body_of

# A weight off by more than this share of what is wanted, and this much, is a slip: estimates.
SLIP_SHARE, SLIP_G = 0.5, 2.0


@dataclass(frozen=True, slots=True)
class Tap:
    """What a phone sent: its own id and time for it, its kind, and what it carries in SI units.

    `laptop_at` is the laptop's time of it, where the phone knew that.
    """

    id: str
    kind: str
    at: str
    body: Mapping[str, Any]
    laptop_at: str = ""


def tapped(kind: str, body: Mapping[str, Any]) -> Record:
    """What a tap carries, checked. Raises: BadInput."""
    if kind not in BODIES:
        raise BadInput("kind", kind, f"must be one of {', '.join(BODIES)}")
    return from_json(BODIES[kind], body)


def happening_of(told: ToldPour, tap: Tap, *, at: str) -> Happening:
    """What happened by a tap that was made at `at`, on the bench's clock.

    A reading is a round of its cup, counted from the start of the burst before it; the end of the
    count is the entry of the lot. Raises: BadInput for a tap that cannot be read.
    """
    body = tapped(tap.kind, tap.body)
    _refuse_unknown(told.setup, body)
    if isinstance(body, CupRead):
        made = reading_entry(told.pour, body, id=tap.id, at=at)
        if made is not None:
            values = worked_body(body.cup, made) | {"typed": body.typed}
            return Happening(tap.id, WORKED, made.at, values)
        return Happening(tap.id, READ, at, to_json(body))
    if isinstance(body, Filled):
        shots = {c.number: c.shot_g for c in told.setup.cups}
        drawn = {str(n): shots[n] for n in body.cups}
        return Happening(tap.id, FILLED, at, {"mold": body.mold, "drawn_g": drawn})
    if tap.kind == COUNT_CLOSED:
        return Happening(tap.id, COUNTED, at, body_of(counted_entry(told, at)))
    values = to_json(body)
    if isinstance(body, PartIn):
        values["wanted_g"] = _wanted_g(told.setup, body)
    if isinstance(body, Dried):
        values = {name: value for name, value in values.items() if value}
    return Happening(tap.id, tap.kind, at, values)


def _refuse_unknown(setup: PourSetup, body: Record) -> None:
    """Refuse a cup, a mold or a part that the sheet does not have."""
    cups = getattr(body, "cups", ()) or ((body.cup,) if isinstance(body, OfCup) else ())
    known = [c.number for c in setup.cups]
    for number in cups:
        if number not in known:
            raise BadInput("cup", number, f"must be one of {', '.join(map(str, known))}")
    mold = getattr(body, "mold", None)
    if mold is not None and mold > len(setup.molds):
        raise BadInput("mold", mold, f"must be 1 to {len(setup.molds)}")
    if isinstance(body, PartIn | Dripped | Tinted):
        task = next(c for c in setup.cups if c.number == body.cup)
        parts = task.weigh if isinstance(body, PartIn) else task.tint
        names = [p.key for p in parts] + ([CARD] if isinstance(body, Tinted) else [])
        if body.part not in names:
            raise BadInput("part", body.part, f"must be one of {', '.join(names)}")


def _wanted_g(setup: PourSetup, body: PartIn) -> float:
    """What the sheet asks for. Raises: BadInput for a weight far from it: an untared cup."""
    task = next(c for c in setup.cups if c.number == body.cup)
    wanted = next(p.grams for p in task.weigh if p.key == body.part)
    slip = SLIP_SHARE * wanted + SLIP_G
    least, most = wanted - slip, wanted + slip
    if not least <= body.grams <= most:
        why = (
            f"must be {max(least, 0):.1f} to {most:.1f} g, within half of the {wanted:.1f} g "
            "wanted: was the cup tared?"
        )
        raise BadInput("grams", body.grams, why)
    return wanted


def foreseen(told: ToldPour, tap: Tap, *, at: str) -> ToldPour:
    """Where the pour would stand after a tap."""
    happening = happening_of(told, tap, at=at)
    return with_pour(told, after(told.setup, told.pour, happening))
