"""Numbers as people read them: in their units, no finer than they are known."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from jinja2 import pass_context
from jinja2.runtime import Context

from pourwright.base.band import Band
from pourwright.base.units import ANY_CURRENCY, UNITS, System, Unit, shown_in
from pourwright.base.wording import clock, money_places
from pourwright.web.local_time import dated

# Digits shown of a value as it was entered, and of one turned into another unit.
EXACT_DIGITS = 5
CONVERTED_DIGITS = 3
MINUS = "\N{MINUS SIGN}"


@dataclass(frozen=True, slots=True)
class Settings:
    """How this bench reads its numbers."""

    system: System = System.US
    currency: str = "$"
    demo: bool = False


@dataclass(frozen=True, slots=True)
class Shown:
    """A range in words: the unit stands after each number, a currency sign before it."""

    typical: str
    low: str
    high: str
    before: str = ""
    unit: str = ""

    @property
    def sure(self) -> bool:
        """Whether the range is narrower than the last digit shown."""
        return self.low == self.high

    @property
    def value(self) -> str:
        """The typical value with its unit."""
        return self._with_unit(self.typical)

    @property
    def range(self) -> str:
        """Both ends with their unit."""
        return f"{self._signed(self.low)} to {self._with_unit(self.high)}"

    def _with_unit(self, number: str) -> str:
        # A no-break space keeps the unit beside its number.
        return f"{self._signed(number)}\N{NO-BREAK SPACE}{self.unit}".rstrip("\N{NO-BREAK SPACE}")

    def _signed(self, number: str) -> str:
        bare = number.removeprefix(MINUS)
        return f"{number[: len(number) - len(bare)]}{self.before}{bare}"


def converted(value: float, unit: Unit, wanted: Unit) -> float:
    """A value in another unit of its dimension."""
    return value if unit is wanted else wanted.from_si(unit.to_si(value))


def label_of(unit: Unit | None, settings: Settings) -> str:
    """The words or sign of a unit."""
    if unit is None:
        return ""
    return settings.currency if unit.key == "money" else unit.label


def shown(band: Band, unit: Unit | None, settings: Settings, read: Unit | None = None) -> Shown:
    """A range with the decimals its width deserves.

    It is read in `read`, or else in what the bench's system of units has for `unit`; volumes of
    less than a fluid ounce stay in milliliters.
    """
    wanted = read or (_bench_unit(band.typical, unit, settings.system) if unit else None)
    ends = [band.typical, band.low, band.high]
    if unit is not None and wanted is not None:
        ends = [converted(end, unit, wanted) for end in ends]
    money = unit is UNITS["money"]
    digits = EXACT_DIGITS if wanted is unit else CONVERTED_DIGITS
    places = money_places(ends[0]) if money else _places(ends, digits)
    return _labelled([grouped(end, places) for end in ends], wanted, settings)


def exactly(value: float, unit: Unit | None, settings: Settings, read: Unit | None = None) -> str:
    """One value with its unit."""
    return shown(Band(value, value, value), unit, settings, read).value


def limits(
    low: float, high: float, unit: Unit | None, settings: Settings, read: Unit | None
) -> str:
    """The words for a value outside its limits, which are rounded inward."""
    if unit is not None and read is not None:
        low, high = (converted(end, unit, read) for end in (low, high))
    ends = _labelled(["", _rounded(low, math.ceil), _rounded(high, math.floor)], read, settings)
    return f"must lie between {ends.range.replace(' to ', ' and ')}"


def _bench_unit(value: float, unit: Unit, system: System) -> Unit:
    wanted = shown_in(unit, system)
    small = wanted is UNITS["fl_oz"] and abs(converted(value, unit, wanted)) < 1
    return unit if small else wanted


def _labelled(texts: list[str], unit: Unit | None, settings: Settings) -> Shown:
    typical, low, high = texts
    label = label_of(unit, settings)
    if unit is UNITS["money"]:
        return Shown(typical, low, high, before=label)
    return Shown(typical, low, high, unit=label)


def grouped(value: float, places: int) -> str:
    """A number with thousands set apart, trailing zeros kept, and no minus before a zero."""
    text = f"{value:,.{places}f}"
    return text.removeprefix("-") if not text.strip("-0.,") else text.replace("-", MINUS)


def opened(words: str) -> str:
    """Words as a sentence opens: only the first letter is raised."""
    return words[:1].upper() + words[1:]


def in_money(words: str, settings: Settings) -> str:
    """The words of an answer with the currency of the bench."""
    return words.replace(ANY_CURRENCY, settings.currency)


def percent(share: float, places: int = 0) -> str:
    """A share from 0 to 1 as a percentage."""
    return f"{grouped(share * 100, places)}\N{NO-BREAK SPACE}%"


def _rounded(value: float, inward: Callable[[float], int]) -> str:
    if value == 0:
        return "0"
    places = max(0, EXACT_DIGITS - 1 - math.floor(math.log10(abs(value))))
    end = inward(round(value * 10**places, 6)) / 10**places
    return grouped(end, len(f"{end:.{places}f}".rstrip("0").partition(".")[2]))


def _places(ends: list[float], digits: int) -> int:
    """Two digits of the width, or so many of a value that has none."""
    typical, low, high = ends
    width = high - low
    if width > 0:
        return max(0, min(4, 1 - math.floor(math.log10(width))))
    if typical == 0:
        return 0
    most = max(0, digits - 1 - math.floor(math.log10(abs(typical))))
    return len(f"{typical:.{most}f}".rstrip("0").partition(".")[2])


def _settings(context: Context) -> Settings:
    found: Settings = context["shell"].settings
    return found


@pass_context
def _shown(context: Context, band: Band, unit: str = "") -> Shown:
    return shown(band, UNITS[unit] if unit else None, _settings(context))


@pass_context
def _in_money(context: Context, words: str) -> str:
    return in_money(words, _settings(context))


@pass_context
def _exactly(context: Context, value: float, unit: str = "") -> str:
    return exactly(value, UNITS[unit] if unit else None, _settings(context))


FILTERS: Mapping[str, Callable[..., Any]] = {
    "shown": _shown,
    "amount": _exactly,
    "clock": clock,
    "dated": dated,
    "opened": opened,
    "in_money": _in_money,
    "percent": percent,
}
