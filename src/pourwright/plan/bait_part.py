"""What is known of a bait: by scale, by water glass, by file or by ruler."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.band import Band, exact
from pourwright.body.measure import MeasureInput, Thick, measure
from pourwright.body.weigh import WeighInput, weigh
from pourwright.forecast.request import BaitPart
from pourwright.shop.mold import Bait, Weighing
from pourwright.shop.own_shape import FILE_SHARE, OwnShape

# A ruler reads half a millimeter, a mold's cavity shrinks or bulges: estimate.
RULER_SHARE = 0.06


def bait_part(bait: Bait, own: OwnShape | None = None) -> BaitPart:
    """What is known of a bait: scale before water glass, water glass before file or ruler.

    The one place that says how large a bait is: its volume is that of the finished bait, however
    told, so that a weight over this volume is the density of the bait. `own` is its shape from a
    file, where it has one.
    """
    shaped = _shaped(bait, own)
    volume = shaped.volume_ml if shaped else None
    return BaitPart(
        name=bait.name,
        mass_g=None if bait.mass_g is None else exact(bait.mass_g),
        volume_ml=_weighed(bait.weighing) if bait.weighing else volume,
        thickest_mm=bait.thickest_mm or (shaped.thickest_mm if shaped else None),
        flat=bool(shaped and shaped.flat),
    )


def _weighed(weighing: Weighing) -> Band:
    return weigh(
        WeighInput(
            air_g=weighing.air_g,
            gained_g=weighing.gained_g,
            water_c=weighing.water_c,
            scale_step_g=weighing.resolution_g,
        )
    ).volume_ml


@dataclass(frozen=True, slots=True)
class _Shaped:
    """What the shape of a bait says."""

    volume_ml: Band
    thickest_mm: float
    flat: bool


def _shaped(bait: Bait, own: OwnShape | None) -> _Shaped | None:
    if bait.shape is not None:
        it = measure(MeasureInput(family=bait.shape))
        flat = it.thickest_shape is Thick.FLAT
        return _Shaped(_within(it.volume_ml, RULER_SHARE), it.thickest_mm, flat)
    if own is None:
        return None
    kept = own.measures
    return _Shaped(_within(kept.volume_ml, FILE_SHARE), kept.thickest_mm, kept.flat)


def _within(middle: float, share: float) -> Band:
    return Band(middle * (1 - share), middle, middle * (1 + share))
