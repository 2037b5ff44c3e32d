"""A temperature to enter, in either unit; its range is in the bench's own."""

from __future__ import annotations

from pourwright.base.units import System, convert
from pourwright.web.bench.screen import Entry
from pourwright.web.show import Settings


def degrees_entry(
    name: str, label: str, within_c: tuple[float, float], settings: Settings, *, required: bool
) -> Entry:
    """An entry that goes along with its unit."""
    us = settings.system is System.US
    units = (("f", "°F"), ("c", "°C")) if us else (("c", "°C"), ("f", "°F"))
    low, high = (round(convert(end, "c", units[0][0]), 1) for end in within_c)
    return Entry(name, label, low, high, unit=units[0][1], required=required, choices=units)
