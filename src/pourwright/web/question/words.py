"""Any value of an answer in words: in bench units, no finer than it is known."""

from __future__ import annotations

import dataclasses
import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from typing import Any

import numpy as np

from pourwright.actions.catalog import CATALOG
from pourwright.base.band import Band, exact
from pourwright.base.field import fields_of
from pourwright.base.units import unit_of
from pourwright.base.wording import EN_DASH, NBSP, words_of
from pourwright.web.show import Settings, exactly, grouped, in_money, opened, percent, shown
from pourwright.web.widget import HEX_PATTERN, word

_DIGITS = 3
_TINY = 1e-4
_MINUTE_S = 60
_SHARE = re.compile(r"(?<![a-z])(share|odds|chance|probability)(?![a-z])", re.IGNORECASE)
_SMALL_SHARE, _LEAST_SHARE = 0.1, 0.001
_LONG_TEXT = 60
_MOST_LISTED = 8
_FILE = 400
_BASE64, _KB = 3 / 4, 1000
_NAME = re.compile(r"\b[a-z0-9]+(?:_[a-z0-9]+)+\b")
_QUESTION = re.compile(r"\b[a-z]+\.[a-z_]+\b")
_NOT_SAID = re.compile(r"\b(null|0 to 1|left out|base64)\b")


@dataclass(frozen=True, slots=True)
class Told:
    """A value in words; its range where it has one, its color where it is one."""

    value: str
    range: str = ""
    color: str = ""
    file: bool = False

    @property
    def line(self) -> str:
        """Both in one line."""
        return f"{self.value} ({self.range})" if self.range else self.value


def told(name: str, value: object, settings: Settings, *, help: str = "") -> Told:
    """A plain value of a field called so; `help` is what the field says of itself."""
    share = unit_of(name) is None and bool(_SHARE.search(f"{name} {help}"))
    match value:
        case None:
            return Told("")
        case bool() | np.bool_():
            return Told("yes" if value else "no")
        case Band() if value.low < value.high:
            return _percent(value) if share and _is_part(value) else _band(name, value, settings)
        case Band():
            return told(name, value.typical, settings, help=help)
        case float() | np.floating() if share and abs(float(value)) <= 1:
            return _percent(exact(float(value)))
        case int() | float() | np.number():
            return _number(name, float(value), settings)
        case Enum():
            return Told(word(str(value.value)).replace("_", " "))
        case str():
            return _text(in_money(value, settings))
        case _:
            return Told(_several(name, value, settings, help))


def plain(value: object) -> bool:
    """Whether a value fits one line."""
    if isinstance(value, str):
        return len(value) <= _LONG_TEXT or _is_file(value)
    if isinstance(value, (tuple, list)):
        return all(_is_number(v) for v in value) and not only_numbers(value)
    return not isinstance(value, (Mapping, np.ndarray)) and (
        isinstance(value, Band) or not dataclasses.is_dataclass(value)
    )


def only_numbers(value: object) -> int:
    """How many numbers lie in a value that holds more of them than a person reads; else 0."""
    count = len(_numbers_in(value))
    return count if count > _MOST_LISTED else 0


def summary(value: Any) -> str:
    """A carried value in one line."""
    match value:
        case str():
            return f"a file of {grouped(max(1, len(value) * _BASE64 / _KB), 0)} KB"
        case [int() | float(), *_]:
            return f"{len(value)} numbers, {min(value):g} to {max(value):g}"
        case list():
            return f"{len(value)} of them"
        case dict():
            return f"{len(value)} values"
        case _:
            return "one value"


def help_of(record: Any, name: str) -> str:
    """What a field of an answer says of itself; its name in words where it says nothing."""
    if dataclasses.is_dataclass(record):
        for field in fields_of(record if isinstance(record, type) else type(record)):
            if field.name == name:
                return field.spec.help
    return opened(bare(name).replace("_", " "))


def label_of(record: Any, name: str) -> str:
    """The first clause of what a field says of itself; its name where that lists its choices."""
    clause = _clauses(help_of(record, name))[0].strip()
    return opened(bare(name).replace("_", " ")) if clause[:1].islower() else clause


def remark_of(record: Any, name: str) -> str:
    """The other clauses, without those for programs."""
    rest = [c.strip() for c in _clauses(help_of(record, name))[1:]]
    return "; ".join(c for c in rest if c and not _NOT_SAID.search(c))


def bare(name: str) -> str:
    """A name without its unit."""
    unit = unit_of(name)
    return name.removesuffix(f"_{unit.key}") if unit else name


def in_words(text: str, *records: type[Any]) -> str:
    """A text that calls fields and calculations by the words a person sees, not by their names."""
    helps = {f.name: f.spec.help for record in records for f in fields_of(record)}

    def field(hit: re.Match[str]) -> str:
        words = _clauses(helps.get(hit[0], hit[0]))[0]
        return words if words == hit[0] else f"{words[:1].lower()}{words[1:]}"

    def question(hit: re.Match[str]) -> str:
        return f"“{CATALOG[hit[0]].purpose}”" if hit[0] in CATALOG else hit[0]

    return _NAME.sub(field, _QUESTION.sub(question, text))


def _clauses(help: str) -> list[str]:
    return re.split(r"[;:] |, (?=0 to 1)", help)


def _band(name: str, band: Band, settings: Settings) -> Told:
    unit = unit_of(name)
    if unit is not None and unit.key == "s" and band.high >= _MINUTE_S:
        words = words_of(band, "s", settings.system)
        return Told(words.middle, words.range.replace(EN_DASH, " to "))
    found = shown(band, unit, settings)
    return Told(found.value, "" if found.sure else found.range)


def _number(name: str, value: float, settings: Settings) -> Told:
    unit = unit_of(name)
    if unit is not None and unit.key == "s" and value >= _MINUTE_S:
        return Told(words_of(value, "s", settings.system).middle)
    if 0 < abs(value) < _TINY:
        return Told(f"under {exactly(_TINY, unit, settings)}")
    rounded = value if unit is not None and unit.key == "money" else _rounded(value)
    return Told(exactly(rounded, unit, settings))


def _percent(share: Band) -> Told:
    """As parts of a hundred; tenths where all of it is small."""
    most = max(abs(share.low), abs(share.high))
    if 0 < most < _LEAST_SHARE:
        return Told(f"under {percent(_LEAST_SHARE, 1)}")
    places = 1 if 0 < most < _SMALL_SHARE else 0
    typical, low, high = (percent(v, places) for v in (share.typical, share.low, share.high))
    return Told(typical, "" if low == high else f"{low.partition(NBSP)[0]} to {high}")


def _text(value: str) -> Told:
    if re.fullmatch(HEX_PATTERN, value):
        return Told(value, color=value)
    if _is_file(value):
        return Told(f"{summary(value)}, in the JSON", file=True)
    return Told(value)


def _several(name: str, value: Any, settings: Settings, help: str) -> str:
    if isinstance(value, Sequence):
        return ", ".join(told(name, v, settings, help=help).line for v in value)
    return str(value)


def _rounded(value: float) -> float:
    if value == 0 or value.is_integer() or not math.isfinite(value):
        return value
    return round(value, max(0, _DIGITS - 1 - math.floor(math.log10(abs(value)))))


def _is_file(text: str) -> bool:
    return len(text) > _FILE and " " not in text


def _is_number(value: object) -> bool:
    return isinstance(value, (int, float, np.number)) and not isinstance(value, bool)


def _numbers_in(value: object) -> list[object]:
    """All numbers of nested lists; none where anything else lies among them."""
    if isinstance(value, np.ndarray):
        return list(value.ravel())
    if _is_number(value):
        return [value]
    if not isinstance(value, (tuple, list)):
        return []
    inner = [_numbers_in(v) for v in value]
    return [v for row in inner for v in row] if all(inner) else []


def _is_part(share: Band) -> bool:
    return share.low >= -1 and share.high <= 1
