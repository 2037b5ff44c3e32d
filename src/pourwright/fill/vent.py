"""A vent as a maker cuts it at the end of a cavity: the one that stands in where nobody says."""

from __future__ import annotations

from pourwright.base.band import Band
from pourwright.base.units import convert

# Common practice, no source.
DEPTH_MM = Band(0.05, 0.07, 0.1)
WIDTH_MM, LENGTH_MM = 4.0, 10.0


def depth_words() -> str:
    """How deep, for a sentence that every maker must be able to read."""
    low, high = DEPTH_MM.low, DEPTH_MM.high
    inches = [f"{convert(mm, 'mm', 'in'):.3f}" for mm in (low, high)]
    return f"{low:g} to {high:g} mm / {inches[0]} to {inches[1]} in"
