"""A number as a slider beside its box, from its declaration."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from pourwright.base.field import Field, fields_of
from pourwright.web.form import Typed
from pourwright.web.number_text import NotANumber, kept_unit, number_of, read_unit
from pourwright.web.show import Settings, converted, label_of

# A slider goes in so many steps from end to end, each a 1, 2 or 5 of its decade.
_STEPS = 200


@dataclass(frozen=True, slots=True)
class Slide:
    """A number to slide or to type, in the bench's unit; `at` is where the slider stands."""

    path: str
    label: str
    value: str
    unit: str
    placeholder: str
    problem: str
    at: float
    low: float
    high: float
    step: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Track:
    """What a slider knows beyond its declaration.

    Its words, where it ends if not at the greatest value there is, where it stands while its box
    is empty, and what is wrong with what was typed.
    """

    label: str = ""
    most: float | None = None
    rests_at: float | None = None
    problem: str = ""


def slide(record: type[Any], path: str, typed: Typed, settings: Settings, track: Track) -> Slide:
    """The slider of a number of a record; `path` ends in the number's name."""
    name = path.rpartition(".")[2]
    field = next(f for f in fields_of(record) if f.name == name)
    low, high = (_read(v, field, settings) for v in (field.spec.low, track.most or field.spec.high))
    step = _step((high - low) / _STEPS)
    text = typed.get(path, "")
    rests = (low + high) / 2 if track.rests_at is None else _read(track.rests_at, field, settings)
    at = min(max(_number(text, rests), low), high)
    return Slide(
        path=path,
        label=track.label or field.spec.label or field.spec.help,
        value=text,
        unit=label_of(read_unit(field, settings.system), settings),
        placeholder="" if text or track.rests_at is None else f"{rests:.2g}",
        problem=track.problem,
        at=round(round(at / step) * step, 6),
        low=_on(low, step, math.ceil),
        high=_on(high, step, math.floor),
        step=step,
    )


def _read(value: float, field: Field, settings: Settings) -> float:
    unit, read = kept_unit(field), read_unit(field, settings.system)
    return value if unit is None or read is None else converted(value, unit, read)


def _number(text: str, otherwise: float) -> float:
    try:
        return number_of(text)
    except NotANumber:
        return otherwise


def _step(fine: float) -> float:
    """The next greater 1, 2 or 5 of a decade.

    >>> _step(0.003), _step(0.07)
    (0.005, 0.1)
    """
    decade = 10.0 ** math.floor(math.log10(fine))
    return next(round(d * decade, 6) for d in (1, 2, 5, 10) if d * decade >= fine)


def _on(value: float, step: float, inward: Callable[[float], int]) -> float:
    """The nearest step inward."""
    return round(inward(round(value / step, 6)) * step, 6)
