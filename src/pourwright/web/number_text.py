"""Numbers as people type them: decimal comma, fractions, the unit left on."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

from pourwright.base.field import Field
from pourwright.base.units import PERCENT, SHARE, System, Unit, shown_in, unit_of
from pourwright.web.show import converted

_DECIMAL = re.compile(r"[+-]?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)")
_FRACTION = re.compile(r"(?:([0-9]{1,4}) +)?([0-9]{1,4})/([0-9]{1,4})")
_THOUSANDS = re.compile(r"[+-]?[1-9][0-9]{0,2},[0-9]{3}")
_LONGEST = 40
# Digits shown of a value that had to be converted.
_SHOWN_DIGITS = 5
# Decimals a caliper reads, and the least it reads well: 4 mm are 0.1575 in, not 0.15748.
_CALIPER, _CALIPER_LEAST = {"in": 4}, 0.01
# Shares of a bench unit below which a person reads the finer one: nobody reads 3 mL in ounces,
# but flake is sold by the hundredth of an inch.
_LEAST = {"fl_oz": 1.0, "in": 0.1}


class NotANumber(ValueError):
    """The text holds no number; the message says so to the person who typed it."""


def number_of(text: str, *, unit: str = "") -> float:
    """The number a person typed; a unit label left on it is taken off.

    Raises: NotANumber for anything else, and for a comma that may stand for thousands.

    >>> number_of("2,5"), number_of("1 1/2"), number_of("450 g", unit="g")
    (2.5, 1.5, 450.0)
    """
    plain = text.replace("\N{MINUS SIGN}", "-").strip()
    if unit:
        plain = plain.removesuffix(unit).removeprefix(unit).strip()
    if len(plain) > _LONGEST:
        raise NotANumber("is too long for a number")
    if _THOUSANDS.fullmatch(plain):
        bare = plain.replace(",", "")
        raise NotANumber(f"could mean {bare} or {plain.replace(',', '.')}: type one of them")
    if _DECIMAL.fullmatch(plain):
        return float(plain.replace(",", "."))
    parts = _FRACTION.fullmatch(plain)
    if parts and int(parts[3]):
        return float(int(parts[1] or 0) + Fraction(int(parts[2]), int(parts[3])))
    raise NotANumber("is not a number")


def kept_unit(entry: Field) -> Unit | None:
    """The unit in which a record keeps a number, or each number of a list."""
    if entry.spec.share:
        return SHARE
    return entry.unit or (unit_of(entry.name) if entry.type in {float, int} else None)


def read_unit(entry: Field, system: System) -> Unit | None:
    """The unit in which a person reads a field.

    What is usually a small part of the bench's unit stays in the finer one.
    """
    unit = kept_unit(entry)
    if unit is None:
        return None
    if unit is SHARE:
        return PERCENT
    wanted = shown_in(unit, system)
    least = _LEAST.get(wanted.key, 0.0)
    return unit if usual(entry) * unit.scale < least * wanted.scale else wanted


def usual(entry: Field) -> float:
    """A size to expect of a number: its typical value, its default, or its greatest."""
    if entry.spec.doubt is not None and entry.spec.doubt.band.typical > 0:
        return entry.spec.doubt.band.typical
    if isinstance(entry.default, (int, float)) and entry.default > 0:
        return float(entry.default)
    return entry.spec.high


def kept_in(value: float, entry: Field, system: System) -> float:
    """A typed value in the unit its record keeps it in."""
    unit, read = kept_unit(entry), read_unit(entry, system)
    if unit is None or read is None or unit is read:
        return value
    return round(converted(value, read, unit), 9)


def typed_in(value: float, entry: Field, system: System) -> str:
    """A kept value as it stands in a form: exact, or where it is converted no finer than read."""
    unit, read = kept_unit(entry), read_unit(entry, system)
    if unit is not None and read is not None and read is not unit:
        value = _readable(value, unit, read)
    text = format(Decimal(repr(value)), "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


def _readable(value: float, unit: Unit, read: Unit) -> float:
    """Five digits; of a length no more than a caliper reads, unless they tell it exactly."""
    digits = float(f"{converted(value, unit, read):.{_SHOWN_DIGITS}g}")
    tells_exactly = abs(converted(digits, read, unit) - value) < 1e-9
    if tells_exactly or read.key not in _CALIPER or abs(digits) < _CALIPER_LEAST:
        return digits
    return round(digits, _CALIPER[read.key])
