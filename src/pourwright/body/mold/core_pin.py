"""The core pin of a tube: it shapes the bore and draws out toward the tail."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.families.tube import Tube
from pourwright.body.loft import Solid
from pourwright.body.mold.cavity import Cavity, grown, nose_of
from pourwright.body.mold.rod import ball, box, joined, rod_x

# A cantilever: the seat holds this many diameters of it, and no less than the least.
SEAT_DIAMETERS, LEAST_SEAT_MM = 1.6, 16.0
# The bait strips off toward the nose: a hair of taper, and a shoulder behind the bore.
TAPER_MM, SHOULDER_SHARE, ROD_SHARE = 0.2, 0.25, 0.15
COLLAR_MM, COLLAR_THICK_MM = 4.0, 4.0
COLLAR_BACK_MM, HANDLE_MM = 8.0, 16.0
# The shoulder bites a hair into the open end, and what the halves give way to begins well inside
# the bait, so that no two faces coincide.
BITE_MM, ROOT_MM = 0.05, 1.0


@dataclass(frozen=True, slots=True)
class _Bore:
    """The bore of a whole tube, and the tube around it."""

    tube: Solid
    core: Solid
    wide_mm: float
    wall_mm: float


def tube_cavity(tube: Tube, shrink_share: float, fit_mm: float) -> Cavity:
    """The cavity of a tube with its core pin.

    Slits are left out: a skirt is cut after pouring. `fit_mm` is the play of the pin in its seat,
    all around.
    """
    bore = _bore(tube, shrink_share)
    length = float(bore.tube.bounding_box()[3])
    seat = max(SEAT_DIAMETERS * bore.wide_mm, LEAST_SEAT_MM)
    pin = joined(_tapered(bore.core, bore.wide_mm), _seat(bore, length - BITE_MM, length + seat))
    filled = joined(bore.tube, bore.core)
    hollow = joined(filled, _seat(bore, length - ROOT_MM, length + seat, fit=fit_mm))
    shell = filled - pin
    return Cavity(hollow, shell, nose_of(filled), pin, seat)


def _bore(tube: Tube, shrink_share: float) -> _Bore:
    whole = grown(dataclasses.replace(tube, slits=0).solid(), shrink_share)
    wall, nose, bore = (v / (1 - shrink_share) for v in (tube.wall_mm, tube.nose_mm, tube.bore_mm))
    end = float(whole.bounding_box()[3])
    # A round-nosed rod within the wall, less the tube, is what fills the bore, and a little more
    # behind the open end, where the pin goes on.
    middle, wide = nose + bore / 2, bore + 2 * ROD_SHARE * wall
    round_nose = ball(wide).translate((middle, 0.0, 0.0))
    rod = joined(rod_x(middle, end + ROOT_MM, wide), round_nose)
    core = max((rod - whole).decompose(), key=lambda piece: piece.volume())
    return _Bore(whole, core, bore, wall)


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
