"""Which puck would teach the most next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.fit.forward import State, shown, slope_as_read, sums
from pourwright.color.fit.prior import Normal
from pourwright.color.fit.reading import Instrument, Puck, Reading
from pourwright.color.slab import Placing
from pourwright.spectrum.light import BANDS

# A colorant can serve as white if 1 g in 100 g scatters this much per mm at 550 nm, and so many
# times what it absorbs beyond the violet; estimates.
_WHITE_SCATTER = 0.3
_WHITE_OVER = 20.0
_MIDDLE, _BEYOND_VIOLET = 15, 8
# The puck that is asked for: its thickness, and the black and the white under it; estimates.
_PUCK_MM = 5.0
_CARDS = (0.05, 0.85)


@dataclass(frozen=True, slots=True)
class NextPuck:
    """A puck by its grams in 100 g, and how far its color is open: one deviation, in Lab."""

    doses: tuple[tuple[int, float], ...]
    open_lab: float


def next_puck(
    parts: Sequence[Normal], usual_g: Sequence[float], pucks: Sequence[Puck]
) -> NextPuck | None:
    """The candidate whose color is least known; `usual_g` is a usual dose of each colorant.

    Candidates: a quarter of the usual dose, twice it, and the usual one with white.
    """
    white = _white(parts)
    found = [
        NextPuck(doses, _open(parts, doses))
        for j, grams in enumerate(usual_g)
        for doses in _candidates(j, grams, white, usual_g)
        if not _poured(doses, pucks)
    ]
    return max(found, key=lambda c: c.open_lab, default=None)


def open_color(parts: Sequence[Normal], colorant: int, grams: float) -> float:
    """How far the color of a puck of one colorant is open: one deviation, in Lab."""
    return _open(parts, ((colorant, grams),))


def _candidates(
    j: int, grams: float, white: int | None, usual_g: Sequence[float]
) -> list[tuple[tuple[int, float], ...]]:
    alone = [((j, grams / 4),), ((j, 2 * grams),)]
    if white is None or white == j:
        return [*alone]
    return [*alone, ((j, grams), (white, usual_g[white]))]


def _poured(doses: tuple[tuple[int, float], ...], pucks: Sequence[Puck]) -> bool:
    """Whether there is such a puck already, within half the dose."""
    for puck in pucks:
        have = {j: g for j, g, _ in puck.doses}
        if set(have) == {j for j, _ in doses} and all(0.5 < have[j] / g < 2 for j, g in doses):
            return True
    return False


def _white(parts: Sequence[Normal]) -> int | None:
    """The colorant that scatters most and hardly absorbs."""
    best, index = 0.0, None
    for j, part in enumerate(parts[1:]):
        scatter, absorb = np.exp(part.scatter[_MIDDLE]), np.exp(part.absorb[_BEYOND_VIOLET:].max())
        if scatter > max(best, _WHITE_SCATTER) and scatter > _WHITE_OVER * absorb:
            best, index = scatter, j
    return index


def _open(parts: Sequence[Normal], doses: tuple[tuple[int, float], ...]) -> float:
    total = sum(_variance(parts, doses, ground) for ground in _CARDS)
    return float(np.sqrt(total / len(_CARDS)))


def _variance(
    parts: Sequence[Normal], doses: tuple[tuple[int, float], ...], ground: float
) -> float:
    puck = Puck("", tuple((j, g, 0.0) for j, g in doses), _PUCK_MM, ())
    reading = Reading(Instrument.METER, np.zeros(3), np.full(BANDS, ground), Placing.CONTACT)
    logs = np.stack([p.mean for p in parts])
    absorb, scatter = sums(State(logs[:, :BANDS], logs[:, BANDS:]), puck)
    seen = shown(absorb.sum(axis=0) * _PUCK_MM, scatter.sum(axis=0) * _PUCK_MM, reading)
    to_lab = slope_as_read(reading, np.maximum(seen.reflectance, 1e-5))
    found = 0.0
    for row, (j, _) in enumerate(doses, start=1):
        by_part = _by_part(seen.by_absorb, absorb, row), _by_part(seen.by_scatter, scatter, row)
        factor = parts[1 + j].factor
        slope = (to_lab * by_part[0]) @ factor[:BANDS] + (to_lab * by_part[1]) @ factor[BANDS:]
        found += float((slope**2).sum())
    return found


def _by_part(slope: Array, layer: Array, row: int) -> Array:
    return np.asarray(slope * layer[row] / layer.sum(axis=0))
