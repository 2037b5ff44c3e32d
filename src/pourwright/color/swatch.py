"""The quick look of a recipe for a page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.colorant import Stuff
from pourwright.color.dose import Dose
from pourwright.color.ground import GROUND, Backing
from pourwright.color.lab import screen_color
from pourwright.color.layer import mixture, sight
from pourwright.color.plastic import RawPlastic
from pourwright.color.slab import Placing

_PLAIN = RawPlastic()


@dataclass(frozen=True, slots=True)
class Swatch:
    """Typical screen colors of a layer, #rrggbb, in daylight, poured on its ground."""

    over_white: str
    over_dark: str


def swatch(doses: Sequence[Dose], *, thick_mm: float, plastic: RawPlastic = _PLAIN) -> Swatch:
    """The typical look of doses to 100 g at a thickness of 0.2 to 60 mm, without bands."""
    stuffs = [d.stuff(d.typical()) for d in doses if d.colorant]
    seen = (
        poured_on(backing, stuffs, thick_mm=thick_mm, plastic=plastic)
        for backing in (Backing.WHITE, Backing.DARK)
    )
    return Swatch(*(screen_color(r) for r in seen))


def poured_on(
    backing: Backing, stuffs: Sequence[Stuff], *, thick_mm: float, plastic: RawPlastic = _PLAIN
) -> Array:
    """Typical reflectance, shape (31,), of a layer poured on the white or the dark ground."""
    mixed = mixture(plastic.typical_flux(), stuffs)
    seen = sight(mixed, thick_mm=thick_mm, ground=GROUND[backing], placing=Placing.CONTACT)
    return np.asarray(seen.reflectance[0])
