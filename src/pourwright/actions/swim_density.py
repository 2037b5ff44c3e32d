"""Which plastic would make a bait, rigged as it is, go another way in the water."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from pourwright.actions.see_swim import SwimSeen
from pourwright.blend.density import Additive
from pourwright.matter.plastisol import COLD_DENSITY_G_ML

# Lighter or heavier plastic is more filler than plastic, and hardly pours; estimate.
LEAST_G_ML, MOST_G_ML = 0.8, 1.4
# So much under the water's density it floats for good; estimate.
FLOATS_UNDER_G_ML = 0.03


class Way(StrEnum):
    """How a bait may go."""

    STILL = "hang still"
    FLOAT = "float"
    FASTER = "sink about twice as fast"


@dataclass(frozen=True, slots=True)
class OtherPlastic:
    """A plastic with which the bait goes that way, and what brings plain plastic there."""

    way: Way
    density_g_ml: float
    additive: Additive


def other_plastics(seen: SwimSeen) -> tuple[OtherPlastic, ...]:
    """The ways that a plastic which still pours can go."""
    return tuple(
        OtherPlastic(way, density, _additive(density))
        for way, density in _densities(seen)
        if LEAST_G_ML < density < MOST_G_ML
    )


def _densities(seen: SwimSeen) -> Iterator[tuple[Way, float]]:
    net_g_ml = seen.sinks.net_g.typical / seen.volume_ml
    neutral = seen.density_g_ml - net_g_ml
    yield Way.STILL, neutral
    yield Way.FLOAT, neutral - FLOATS_UNDER_G_ML
    if net_g_ml > 0:
        # Drag goes about with the square of the speed.
        yield Way.FASTER, neutral + 4 * net_g_ml


def _additive(density_g_ml: float) -> Additive:
    heavier = density_g_ml > COLD_DENSITY_G_ML.typical
    return Additive.SALT if heavier else Additive.HOLLOW_GLASS
