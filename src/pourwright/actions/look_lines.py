"""Where the lines of a look lie in a bait: as it says, or by the shares of its layers."""

from __future__ import annotations

from collections.abc import Mapping

from pourwright.actions.port import Bench
from pourwright.actions.shape_of import own_shape_of
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.body.division import Division, Place
from pourwright.body.division_of import divided
from pourwright.plan.bait_build import bait_build
from pourwright.shop.look import Look
from pourwright.shop.mold import Bait


def look_lines(bench: Bench, look: Look, bait: Bait) -> Mapping[str, float]:
    """The measures of the look's split as they come out, by their names.

    Nothing where the bait has no shape, or cannot have these layers.
    """
    build = bait_build(bait, own_shape_of(bench, bait))
    if build is None:
        return {}
    places = tuple(layer.place.value for layer in look.layers)
    try:
        laid = divided(build, places, look.split, shares=tuple(x.share for x in look.layers))
    except (BadInput, NoAnswer):
        return {}
    return _measures(laid)


def _measures(laid: Division) -> Mapping[str, float]:
    found = {
        "line_height": laid.share_of_height(laid.line_mm),
        "belly_height": laid.share_of_height(laid.low_line_mm),
    }
    if laid.holds(Place.VEIN):
        found |= {
            "vein_height": laid.share_of_height(laid.vein_mm),
            "vein_thick_mm": laid.vein_thick_mm,
            "vein_wide_mm": laid.vein_wide_mm,
        }
    if laid.holds(Place.CORE):
        found["core_share"] = laid.core_share
    return found
