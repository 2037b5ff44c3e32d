"""Numbers in words, the same on screen and paper: in bench units, no finer than known."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from pourwright.base.band import Band, exact
from pourwright.base.units import UNITS, System, Unit, shown_in

Value = float | Band | Mapping[str, float]

NBSP = "\N{NO-BREAK SPACE}"
EN_DASH = "\N{EN DASH}"
MINUS = "\N{MINUS SIGN}"
_DIGITS = 3
# A certain value in the unit it was kept in has one digit more from here on: 334.2 g.
_FINE_FROM = 100.0
_MOST_PLACES = 4
_HALF_A_CENT = 0.005


@dataclass(frozen=True, slots=True)
class Words:
    """A number in words, with what stands before and after it.

    `low` and `high` are equal where the range is narrower than the last digit shown.
    """

    typical: str
    low: str
    high: str
    before: str = ""
    unit: str = ""

    @property
    def middle(self) -> str:
        """The typical value with its unit: `172 °C`."""
        return self._whole(self.typical)

    @property
    def bare(self) -> str:
        """The range without its unit, for a table whose heading names the unit."""
        if self.low == self.high:
            return self.typical
        # Beside a minus sign a dash cannot be told from another minus.
        joint = " to " if MINUS in self.low + self.high else EN_DASH
        return f"{self.low}{joint}{self.high}"

    @property
    def range(self) -> str:
        """The range with its unit: `165–180 °C`; one number where it is certain."""
        return self._whole(self.bare)

    def _whole(self, number: str) -> str:
        gap = NBSP if self.before[-1:].isalpha() else ""
        after = f"{NBSP}{self.unit}" if self.unit else ""
        return f"{self.before}{gap}{number}{after}"


def worded(value: Value, unit_key: str, system: System) -> str:
    r"""A value, or the range of a band, with its unit in the chosen system.

    `unit_key` is a key of `UNITS` other than `money`, or empty for a count.

    >>> worded(176.6666667, "c", System.US), worded(272.4, "s", System.US)
    ('350\xa0°F', '4:32\xa0min')
    >>> worded(Band(165.2, 172.0, 179.8), "c", System.METRIC)
    '165–180\xa0°C'
    """
    return words_of(value, unit_key, system).range


def words_of(value: Value, unit_key: str, system: System) -> Words:
    """The parts of `worded`, for pages that set typical value, range and unit apart.

    Times of a minute or more are min:s. Less than one fluid ounce stays in milliliters, since
    nobody reads a drop in ounces.
    """
    band = band_of(value)
    if not unit_key:
        return _numbers(band, None, converted=False)
    kept = UNITS[unit_key]
    if kept.key == "s":
        return _time(band)
    read = _read_unit(kept, band, system)
    if read is kept:
        return _numbers(band, kept, converted=False)
    ends = (read.from_si(kept.to_si(end)) for end in (band.low, band.typical, band.high))
    return _numbers(Band(*ends), read, converted=True)


def unit_label(unit_key: str, system: System) -> str:
    """The label of the unit in which a system shows values kept in `unit_key`."""
    return shown_in(UNITS[unit_key], system).label


def clock(seconds: float) -> str:
    """Seconds as minutes and seconds.

    >>> clock(270), clock(59.6), clock(4000)
    ('4:30', '1:00', '66:40')
    """
    minutes, rest = divmod(round(seconds), 60)
    return f"{minutes}:{rest:02d}"


def span(seconds: float) -> str:
    """A length of time that may run to hours, no finer than a minute from one minute on.

    >>> span(45), span(130), span(7200)
    ('45 s', '2 min', '2 h 0 min')
    """
    if seconds < 60:
        return f"{seconds:.0f} s"
    hours, minutes = divmod(round(seconds / 60), 60)
    return f"{hours} h {minutes} min" if hours else f"{minutes} min"


def money(value: Value, sign: str) -> str:
    """An amount, or the range of a band, with the currency sign; in cents.

    >>> money(1.5, "$"), money(0.0456, "€"), money(-0.6, "$"), money(Band(0.3, 0.4, 0.55), "$")
    ('$1.50', '€0.05', '−$0.60', '$0.30–0.55')
    >>> money(0.0032, "$")
    '$0.003'
    """
    return money_words(value, sign).range


def money_words(value: Value, sign: str) -> Words:
    """The parts of `money`."""
    band = band_of(value)
    if band.high < 0:
        band, sign = band.scaled(-1), MINUS + sign
    places = money_places(band.typical)
    low, typical, high = (grouped(v, places) for v in (band.low, band.typical, band.high))
    return Words(typical, low, high, before=sign)


def percent(share: Value) -> str:
    """A share from 0 to 1, or the range of one, as a percentage.

    >>> percent(0.125), percent(Band(0.02, 0.05, 0.11))
    ('12%', '2–11%')
    """
    band = band_of(share)
    low, typical, high = (grouped(v * 100, 0) for v in (band.low, band.typical, band.high))
    return f"{Words(typical, low, high).bare}%"


def miss(share: float) -> str:
    """How far something misses, with its sign.

    >>> miss(0.031), miss(-0.02), miss(0.001)
    ('+3%', '−2%', '0%')
    """
    text = percent(share)
    return text if text == "0%" or share < 0 else f"+{text}"


def grouped(value: float, places: int) -> str:
    """A number with thousands set apart and no minus before a zero."""
    text = f"{value:,.{places}f}"
    return text.removeprefix("-") if not text.strip("-0.,") else text.replace("-", MINUS)


def band_of(value: Value) -> Band:
    """A number, a band, or the JSON of a band, as a band."""
    if isinstance(value, Band):
        return value
    if isinstance(value, Mapping):
        return Band(value["low"], value["typical"], value["high"])
    return exact(float(value))


def money_places(amount: float) -> int:
    """Cents, or mills of what is something but less than half a cent."""
    return 3 if 0 < abs(amount) < _HALF_A_CENT else 2


def _read_unit(kept: Unit, band: Band, system: System) -> Unit:
    read = shown_in(kept, system)
    small = abs(band.typical) * kept.scale < read.scale
    return kept if small and kept.dimension == "volume" else read


def _time(band: Band) -> Words:
    if round(band.high) < 60:
        return _numbers(band, UNITS["s"], converted=True)
    low, typical, high = (clock(v) for v in (band.low, band.typical, band.high))
    return Words(typical, low, high, unit=UNITS["min"].label)


def _numbers(band: Band, unit: Unit | None, *, converted: bool) -> Words:
    places = _places(band, unit, converted=converted)
    low, typical, high = (grouped(v, places) for v in (band.low, band.typical, band.high))
    if low == high:
        low = typical = high = _trimmed(typical)
    return Words(typical, low, high, unit=unit.label if unit else "")


def _places(band: Band, unit: Unit | None, *, converted: bool) -> int:
    """A range spans three or more last digits; no value has tenths of a degree."""
    if unit and unit.dimension == "temperature":
        return 0
    width, size = band.high - band.low, abs(band.typical)
    fine = size >= _FINE_FROM and not width and not converted
    digits = _DIGITS + 1 if fine else _DIGITS
    most = digits - 1 - math.floor(math.log10(size)) if size else 0
    if width:
        by_width = -math.floor(math.log10(width / 3))
        most = min(most, by_width) if size else by_width
    return max(0, min(most, _MOST_PLACES))


def _trimmed(text: str) -> str:
    return text.rstrip("0").rstrip(".") if "." in text else text
