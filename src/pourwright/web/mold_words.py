"""What the numbers of a mold mean in plain words."""

from __future__ import annotations

from collections.abc import Iterable

from pourwright.base.band import Band
from pourwright.base.units import UNITS, convert
from pourwright.fill.change import MORE_PRESSURE
from pourwright.fill.hold import SEEN_MM
from pourwright.fill.odds import Help
from pourwright.fill.outcome import Stop
from pourwright.fill.slice import FEED, Part, SlicePart
from pourwright.web.show import Settings, percent, shown

_VERDICTS = (
    (0.95, "Fills nearly always"),
    (0.8, "Fills most of the time"),
    (0.5, "Fills more often than not"),
    (0.1, "Mostly stays short"),
    (0.0, "Hardly ever fills"),
)
# A change that gains less than that is no help; a dent deeper than that spoils the bait: estimates.
WORTH, DEEP_MM = 0.015, 1.0
# Odds that halves lift up to which clamps hold, and up to which they may give way: estimates.
HOLDS, MAY_LIFT = 0.05, 0.5


def verdict(share: float) -> str:
    """Odds of a full shot in words."""
    return next(words for least, words in _VERDICTS if share >= least)


def stop_words(stop: Stop, chain: Iterable[SlicePart], settings: Settings) -> str:
    """Where the short ones stop, counted from the gate where they came so far."""
    feed_mm = sum(s.length_mm for s in chain if s.part in FEED)
    past = Band(*(max(v - feed_mm, 0.0) for v in _ends(stop.front_mm)))
    if stop.front_in == Part.CAVITY.value:
        where = f"in the cavity, {_range(past, settings)} past the gate"
    else:
        where = f"in the {stop.front_in} already"
    shut = f"; the plastic sets in the {stop.shut_in} first" if stop.shut_in else ""
    return f"Those that stay short stop {where}{shut}."


def helps_worth(helps: Iterable[Help]) -> tuple[tuple[Help, str], ...]:
    """The changes that gain something, with what to mind but the pressure."""
    return tuple((h, h.how.replace(MORE_PRESSURE, "").strip()) for h in helps if h.gained >= WORTH)


def pressure_words(helps: Iterable[Help]) -> str:
    """The caution of more pressure, with the changes that gain something and want it."""
    named = [h.change for h in helps if h.gained >= WORTH and MORE_PRESSURE in h.how]
    return f"Mind with {' and '.join(named)}: {MORE_PRESSURE}" if named else ""


def dent_words(dent_mm: Band) -> str:
    """A dent as an eye sees it."""
    if dent_mm.typical < SEEN_MM:
        return "No dent that anybody sees."
    deep = depth(dent_mm.typical)
    if dent_mm.typical < DEEP_MM:
        return f"A shallow dent of about {deep}, if it gathers in one place."
    return f"A dent of about {deep} that everybody sees, if it gathers in one place."


def depth(dent_mm: float) -> str:
    """How deep a dent is, in both systems, no finer than it is known."""
    return f"{dent_mm:.1f} mm / {convert(dent_mm, 'mm', 'in'):.2f} in"


def lift_words(share: float, clamps: int) -> str:
    """Odds that the halves lift."""
    if not clamps:
        return "Not told yet: add the clamps you put on this mold."
    if share <= HOLDS:
        return "The clamps hold."
    if share <= MAY_LIFT:
        return f"The halves may lift: {share:.0%} of hard last pushes do it."
    return f"The halves lift in {share:.0%} of the cases: more clamps, or ease off at the end."


def narrowed_words(before: float, now: float, count: int) -> str:
    """How far timed shots narrowed the plastic."""
    shots = "1 timed shot" if count == 1 else f"{count} timed shots"
    return f"{shots}: known within {now:.1f} times either way, {before:.1f} before."


def percents(share: Band) -> str:
    """A range of shares from 0 to 1."""
    return f"{share.low * 100:.0f} to {percent(share.high)}"


def _ends(band: Band) -> tuple[float, float, float]:
    return band.low, band.typical, band.high


def _range(band: Band, settings: Settings) -> str:
    told = shown(band, UNITS["mm"], settings)
    return told.value if told.sure else told.range
