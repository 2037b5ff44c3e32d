"""Pouring a bait by hand, layer upon layer: what goes in, how much of it, and up to where."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pourwright.body.division import Division, Place
from pourwright.body.split_bars import Bars, Cut

# Less of the bait than this is no pour of its own: what seeps past a vein.
LEAST_SHARE = 0.003


@dataclass(frozen=True, slots=True)
class Pour:
    """One pour: the layer, its volume in the bait, and the height its face comes to."""

    place: str
    volume_mm3: float
    top_mm: float


def pours_of(bars: Bars, division: Division, *, back_first: bool) -> tuple[Pour, ...]:
    """The pours in order; a core is molded before and laid in, so it is none of them.

    The layer that the vein lies on is poured up to the vein's near face first.
    """
    found = tuple(_pours(bars, division, back_first=back_first))
    least = LEAST_SHARE * bars.volume_mm3
    return tuple(pour for pour in found if pour.volume_mm3 > least)


def _pours(bars: Bars, division: Division, *, back_first: bool) -> Iterator[Pour]:
    cut = Cut(bars, division)
    edges = (division.low_mm, *division.lines_mm, division.high_mm)
    near = _vein_face(division, back_first=back_first)
    far = 2 * division.vein_mm - near
    spans = list(zip(division.stack, edges[:-1], edges[1:], strict=True))
    for place, low, high in reversed(spans) if back_first else spans:
        first, last = (high, low) if back_first else (low, high)
        if not division.holds(Place.VEIN) or not low <= near < high:
            yield Pour(place, _between(cut, division, low, high), last)
            continue
        yield Pour(place, _between(cut, division, *sorted((first, near))), near)
        yield Pour(Place.VEIN.value, cut.vein(), far)
        yield Pour(place, _between(cut, division, *sorted((near, last))), last)


def _vein_face(division: Division, *, back_first: bool) -> float:
    """The face of the vein that is reached first."""
    half = division.vein_thick_mm / 2
    return division.vein_mm + half if back_first else division.vein_mm - half


def _between(cut: Cut, division: Division, low: float, high: float) -> float:
    """Free volume between two heights; waves reach past the ends of the bait."""
    below = float("-inf") if low <= division.low_mm else low
    above = 0.0 if high >= division.high_mm else cut.free_over(high)
    return cut.free_over(below) - above
