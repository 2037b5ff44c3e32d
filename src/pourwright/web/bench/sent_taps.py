"""The taps a phone sent, read from JSON; bench units end here."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from pourwright.actions.strict_json import parsed
from pourwright.actions.tap_event import Tap
from pourwright.base.errors import BadInput
from pourwright.base.units import convert
from pourwright.web.event_id import event_id

MOST_TAPS = 500
_UNIT = "_unit"
# Of a reading the unit it was typed in is kept, since a slip of the unit may be asked about.
_READ = "read"
_ENVELOPE, _TAP = (
    frozenset({"sent_at", "taps"}),
    frozenset({"id", "kind", "at", "laptop_at", "body"}),
)


@dataclass(frozen=True, slots=True)
class SentTaps:
    """Taps in the order they were made, and the sender's clock as it sent them.

    `refused` names by id the taps that could not be read, with the reason.
    """

    sent_at: str
    taps: tuple[Tap, ...]
    refused: Mapping[str, str]


def sent_taps(body: bytes) -> SentTaps:
    """What a phone sent.

    Raises: BadInput for an envelope that cannot be read.
    """
    data = _object(parsed(body), "input", _ENVELOPE)
    sent_at = _time(data.get("sent_at"), "sent_at")
    listed = data.get("taps")
    if not isinstance(listed, list) or len(listed) > MOST_TAPS:
        raise BadInput("taps", None, f"must be a list of at most {MOST_TAPS} taps")
    taps: list[Tap] = []
    refused: dict[str, str] = {}
    for i, sent in enumerate(listed):
        key = str(sent.get("id", "")) if isinstance(sent, Mapping) else f"taps[{i}]"
        try:
            taps.append(_tap(_object(sent, f"taps[{i}]", _TAP), event_id(key)))
        except BadInput as error:
            refused[key] = str(error)
    return SentTaps(sent_at, tuple(taps), refused)


def _tap(one: Mapping[str, Any], key: str) -> Tap:
    kind, body = one.get("kind"), one.get("body")
    if not isinstance(kind, str):
        raise BadInput("kind", kind, "must be the kind of the tap, in words")
    if not isinstance(body, Mapping):
        raise BadInput("body", body, "must be a JSON object")
    known = one.get("laptop_at")
    laptop_at = "" if known is None else _time(known, "laptop_at")
    return Tap(key, kind, _time(one.get("at"), "at"), _in_si(body), laptop_at)


def _in_si(body: Mapping[str, Any]) -> dict[str, Any]:
    """A number with a unit beside it, `read` with `read_unit`, as `read_c`."""
    found = {name: value for name, value in body.items() if not name.endswith(_UNIT)}
    for name, unit in body.items():
        if not name.endswith(_UNIT):
            continue
        bare = name.removesuffix(_UNIT)
        value = found.pop(bare, None)
        if unit not in {"f", "c"}:
            raise BadInput(name, unit, "must be f or c")
        if value is not None and (isinstance(value, bool) or not isinstance(value, int | float)):
            raise BadInput(bare, value, "must be a number")
        if bare == _READ:
            found["typed"] = unit
        found[f"{bare}_c"] = None if value is None else _celsius(bare, value, unit)
    return found


def _celsius(name: str, value: float, unit: str) -> float:
    try:
        return round(convert(value, unit, "c"), 3)
    except OverflowError as error:
        raise BadInput(name, value, "must be a finite number") from error


def _object(value: object, where: str, names: frozenset[str]) -> Mapping[str, Any]:
    if not isinstance(value, Mapping):
        raise BadInput(where, value, "must be a JSON object")
    unknown = next((n for n in value if n not in names), None)
    if unknown is not None:
        raise BadInput(f"{where}.{unknown}", value[unknown], f"fields: {', '.join(sorted(names))}")
    return value


def _time(value: object, where: str) -> str:
    """A time with its zone, as `bench.clock` reads it. Raises: BadInput."""
    try:
        found = dt.datetime.fromisoformat(str(value))
        if found.tzinfo is None:
            raise BadInput(where, value, "must name its zone: end it in Z")
        return found.astimezone(dt.UTC).isoformat()
    except (ValueError, OverflowError) as error:
        raise BadInput(where, value, "must be a time, ISO 8601, ending in Z") from error
