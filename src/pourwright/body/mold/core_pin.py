"""The core pin of a hollow bait: it shapes the bore and draws out toward the tail."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.family import Core
from pourwright.body.loft import Solid, joined
from pourwright.body.mold.cavity import Cavity, grown_with, nose_of
from pourwright.body.mold.rod import box, rod_x

# A cantilever: the seat holds this many diameters of it, and no less than the least.
SEAT_DIAMETERS, LEAST_SEAT_MM = 1.6, 16.0
# The bait strips off toward the nose: a hair of taper, and a shoulder behind the bore.
TAPER_MM, SHOULDER_SHARE = 0.2, 0.25
COLLAR_MM, COLLAR_THICK_MM = 4.0, 4.0
COLLAR_BACK_MM, HANDLE_MM = 8.0, 16.0
# The shoulder bites a hair into the open end, and what the halves give way to begins well inside
# the bait, so that no two faces coincide.
BITE_MM, ROOT_MM = 0.05, 1.0
# The open end is measured in a slice this thin.
END_MM = 0.02


@dataclass(frozen=True, slots=True)
class _Bore:
    """The core and the bait around it, grown; at the open end `end_x` how wide the bore and how
    thick its wall are.
    """

    core: Solid
    around: Solid
    end_x: float
    wide_mm: float
    wall_mm: float


def cored_cavity(core: Core, shrink_share: float, fit_mm: float) -> Cavity:
    """The cavity of a hollow bait with its core pin.

    `fit_mm` is the play of the pin in its seat, all around.
    """
    bore = _bore(core, shrink_share)
    length, filled = bore.end_x, bore.around
    seat = max(SEAT_DIAMETERS * bore.wide_mm, LEAST_SEAT_MM)
    pin = joined(_tapered(bore.core, bore.wide_mm), _seat(bore, length - BITE_MM, length + seat))
    hollow = joined(filled, _seat(bore, length - ROOT_MM, length + seat, fit=fit_mm))
    return Cavity(hollow, filled - pin, nose_of(filled), pin, seat)


def _bore(core: Core, shrink_share: float) -> _Bore:
    around, pin = (grown_with(core.around, it, shrink_share) for it in (core.around, core.pin))
    end = float(around.bounding_box()[3])
    wide, outside = (_width_at(end, it) for it in (pin, around))
    past = pin.trim_by_plane((-1.0, 0.0, 0.0), -end - ROOT_MM)
    return _Bore(past, around, end, wide, (outside - wide) / 2)


def _width_at(x_mm: float, solid: Solid) -> float:
    """Extent across the length, a hair before a place."""
    low, high = (-1e3, -1e3), (1e3, 1e3)
    slab = solid ^ box((x_mm - END_MM, *low), (x_mm, *high))
    _, y0, _, _, y1, _ = slab.bounding_box()
    return float(y1 - y0)


def _tapered(core: Solid, wide_mm: float) -> Solid:
    """The core, thinner toward the nose."""
    first, last = core.bounding_box()[0], core.bounding_box()[3]

    def drawn(points: Array) -> Array:
        thin = TAPER_MM / wide_mm * (last - points[:, 0]) / (last - first)
        return np.asarray(points * np.column_stack([np.ones_like(thin), 1 - thin, 1 - thin]))

    return core.warp_batch(drawn)


def _seat(bore: _Bore, start: float, end: float, *, fit: float = 0.0) -> Solid:
    """Shoulder, collar with a flat that keeps the pin from turning, and handle past the end."""
    wide = bore.wide_mm + 2 * SHOULDER_SHARE * bore.wall_mm + 2 * fit
    shaft = rod_x(start, end + HANDLE_MM, wide, wide + TAPER_MM)
    return joined(shaft, _collar(end - COLLAR_BACK_MM, wide + 2 * COLLAR_MM, fit))


def _collar(middle: float, wide: float, fit: float) -> Solid:
    half = COLLAR_THICK_MM / 2 + fit
    disk = rod_x(middle - half, middle + half, wide)
    flat = box((middle - 9, -wide, wide / 2 - COLLAR_MM / 2 + fit), (middle + 9, wide, wide))
    return disk - flat
