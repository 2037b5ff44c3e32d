"""Temperatures as a thermometer of the bench shows them: whole degrees."""

from __future__ import annotations

from pourwright.base.band import Band
from pourwright.base.units import UNITS, System, convert
from pourwright.web.show import Settings, exactly


def read_words(celsius: float, settings: Settings) -> str:
    """A temperature to the whole degree."""
    return exactly(_whole(celsius, settings), UNITS["c"], settings)


def between_words(band: Band, settings: Settings) -> str:
    """A range of temperatures to the whole degree."""
    low = read_words(band.low, settings).partition("\N{NO-BREAK SPACE}")[0]
    return f"{low} to {read_words(band.high, settings)}"


def _whole(celsius: float, settings: Settings) -> float:
    """A reading to the whole degree of the bench, as its thermometer shows it."""
    if settings.system is System.US:
        return convert(round(convert(celsius, "c", "f")), "f", "c")
    return round(celsius)
