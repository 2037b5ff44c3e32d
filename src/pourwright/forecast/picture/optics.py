"""What a recipe makes of a layer, as a picture needs it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from pourwright.color.dose import Dose
from pourwright.color.kinds.flake import Flake
from pourwright.color.layer import mixture
from pourwright.color.plastic import RawPlastic
from pourwright.forecast.picture.scene import FlakeSort, LayerOptics

# What stands in for a flake whose size nobody entered; estimate.
USUAL_FLAKE_MM = 0.6
# Fewer faces than this to a mm of way are none.
_BARE = 1e-9


def layer_optics(place: str, doses: Sequence[Dose], plastic: RawPlastic) -> LayerOptics:
    """One layer by its typical values."""
    colored = [(dose, dose.colorant, dose.typical()) for dose in doses if dose.colorant]
    stuffs = [dose.stuff(values) for dose, _, values in colored]
    mixed = mixture(plastic.typical_flux(), stuffs)
    sheens = [
        colorant.sheen(dose.per_100g * dose.unit_g(values), values)
        for dose, colorant, values in colored
    ]
    return LayerOptics(
        place=place,
        absorb_mm=mixed.absorb_mm[0],
        scatter_mm=mixed.scatter_mm[0],
        sheens=tuple(s for s in sheens if s is not None),
        flakes=tuple(
            FlakeSort(
                size_mm=_size_mm(colorant),
                faces_per_mm=float(stuff.faces_per_mm[0]),
                shows=np.broadcast_to(stuff.faces_show, mixed.absorb_mm[0].shape),
            )
            for (_, colorant, _), stuff in zip(colored, stuffs, strict=True)
            if stuff.faces_per_mm[0] > _BARE
        ),
    )


def _size_mm(colorant: object) -> float:
    known = colorant.size_mm if isinstance(colorant, Flake) else None
    return known or USUAL_FLAKE_MM
