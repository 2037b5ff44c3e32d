"""The light under water, as a picture needs it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Draws
from pourwright.base.field import number, part
from pourwright.base.record import Record
from pourwright.forecast.picture.light import FADE, Around, Diffuse, Lighting
from pourwright.spectrum.adaptation import adapted
from pourwright.spectrum.light import EYE
from pourwright.water.ask import WaterAsk, drawn_water
from pourwright.water.field import LightField

# The camera opens for the water, or for so much of a white sheet where that is brighter, but not
# all the way: light of `FULL` brightness comes out as `BEYOND`, less of it darker; by eye.
BEYOND, FULL, SHEET_SHARE, OPENS = 0.32, 0.08, 0.5, 0.8
# By how much it takes the light down there for white; estimate.
ADAPTED = 0.45
# Light comes from above, brightest there; which way across it comes from does not count.
_FROM_ABOVE = (0.0, 0.94, 0.34)


@dataclass(frozen=True, slots=True, kw_only=True)
class UnderWater(Record):
    """A bait under water, seen level from its side."""

    water: WaterAsk = part("The water", default=WaterAsk())
    range_m: float = number("How far away it is seen from", low=0, high=30, default=0.4)


def under_water(asked: UnderWater) -> Lighting:
    """Typical light at the bait's depth. Raises: NoAnswer for a disk's depth no such water has."""
    field = drawn_water(Draws(count=1), asked.water).field
    kept = np.exp(-field.medium.beam_per_m[0] * asked.range_m)
    face, down, up = (v[0] for v in (field.face, field.down, field.up))
    level = field.level[0]
    eye = EYE / 100
    reflect = (face / np.pi * kept)[:, None] * eye
    beyond, veil = level @ eye, (level * (1 - kept)) @ eye
    bright = max(float(beyond[1]), SHEET_SHARE * float(reflect.sum(axis=0)[1] + veil[1]))
    scale = BEYOND / bright * min(bright / FULL, 1.0) ** (1 - OPENS)
    upright = float(face @ eye[:, 1])
    around = _around(field, upright)
    tuned = scale * adapted(face @ eye, ADAPTED)
    return Lighting(
        reflect=reflect @ tuned,
        through=(level * kept)[:, None] * eye @ tuned,
        sheet=None,
        veil=veil @ tuned,
        beyond=beyond @ tuned,
        diffuse=Diffuse(
            level=1.0,
            upward=float(down @ eye[:, 1]) / upright - 1,
            downward=float(up @ eye[:, 1]) / upright - 1,
            keyed=0.0,
        ),
        around=around,
        glinting=around,
        wet=True,
        fade=FADE,
    )


def _around(field: LightField, upright: float) -> Around:
    """Brightness of the water by direction, over that of a white upright face."""
    low, level, high = (
        float(np.pi * (v[0] @ EYE[:, 1]) / 100 / upright)
        for v in (field.below, field.level, field.above)
    )
    return Around(
        low=low, level=level, high=high, window=0.0, key=_FROM_ABOVE, wide=1.0, tall=1.0, soft=1.0
    )
