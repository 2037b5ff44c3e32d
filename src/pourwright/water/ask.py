"""The water asked about: its kind, what was measured of it, the depth and the sky."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import number, pick
from pourwright.base.record import Record
from pourwright.water import algae
from pourwright.water.content import NAMES, Content, drawn_traits
from pourwright.water.daylight import Daylight, Sky, daylight
from pourwright.water.decay import MOST_SCATTER_RATIO
from pourwright.water.field import LightField, drawn_guesses, light_field
from pourwright.water.kind import MEASURE, WaterKind, properties
from pourwright.water.medium import Medium, medium_of
from pourwright.water.scaled import fitted, unmet
from pourwright.water.secchi import MISS

# Share of noon's daylight below which colors fade to an eye; about dusk; estimate.
_DARK = 1e-4


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterAsk(Record):
    """A water by its look, by a white disk, by a laboratory's figures, or by some of each."""

    kind: WaterKind = pick("How the water looks", default=WaterKind.CLEAR)
    secchi_m: float | None = number(
        "Depth at which a white disk on a cord goes out of sight; left out, that of such water",
        low=0.05, high=60, default=None, label="White disk gone at",
    )  # fmt: skip
    chlorophyll_mg_m3: float | None = number(
        "Chlorophyll, if a laboratory told you", low=0, high=500, default=None
    )
    stain_per_m: float | None = number(
        "Absorption of the filtered water at 440 nm, if measured",
        low=0, high=60, default=None, label="Tea stain",
    )  # fmt: skip
    mineral_g_m3: float | None = number(
        "Mineral silt, if measured", low=0, high=2000, default=None, label="Silt"
    )
    depth_m: float = number("Depth of the bait", low=0, high=60, default=1.5)
    sky: Sky = pick("What lights the water", default=Sky.OVERCAST)
    sun_deg: float = number(
        "Height of the sun above the horizon; counts under a sunny sky", low=5, high=90, default=45
    )
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a white disk beside all three figures: one of them would have to give way."""
        if self.secchi_m is not None and len(self.held) == len(NAMES):
            why = "goes with at most two of chlorophyll, stain and silt, since the rest is fitted"
            raise BadInput("secchi_m", self.secchi_m, why)

    @property
    def held(self) -> frozenset[str]:
        """The contents that were measured."""
        return frozenset(n for n in NAMES if getattr(self, n) is not None)

    @property
    def light(self) -> Daylight:
        """The daylight under the surface."""
        return daylight(self.sky, self.sun_deg)


@dataclass(frozen=True, slots=True)
class DrawnWater:
    """Draws of a water and of the light at the bait's depth.

    `unmet_share` is that of the draws whose white disk's depth no such water has.
    """

    content: Content
    medium: Medium
    field: LightField
    unmet_share: float


def drawn_water(draws: Draws, ask: WaterAsk) -> DrawnWater:
    """The water with all that is loose about it.

    Raises: NoAnswer for a white disk's depth that no such water has.
    """
    content = _content(draws, ask)
    traits = drawn_traits(draws)
    unmet_share = 0.0
    if ask.secchi_m is not None:
        depth = np.asarray(ask.secchi_m) * MISS.drawn(draws)
        content = fitted(content, traits, depth, held=ask.held, cosine=ask.light.cosine)
        unmet_share = unmet(medium_of(content, traits), depth, ask.light.cosine)
    medium = medium_of(content, traits)
    return DrawnWater(
        content, medium,
        light_field(medium, depth_m=ask.depth_m, light=ask.light, guesses=drawn_guesses(draws)),
        unmet_share,
    )  # fmt: skip


def water_notes(ask: WaterAsk, water: DrawnWater) -> Iterable[str]:
    """What stands in, and where the formulas are stretched."""
    if ask.secchi_m is None and len(ask.held) < len(NAMES):
        yield (
            f"What is in {ask.kind.value} water is our own round figure, good to a factor of "
            f"three. To replace it, {MEASURE}."
        )
    if water.unmet_share:
        yield (
            f"secchi_m lies near the end of what such water can show: {water.unmet_share:.0%} of "
            "the draws stop there, so that the ranges are a little too narrow."
        )
    if ask.sky is Sky.OVERCAST:
        yield "An even gray sky lights the water; the sun's height does not count."
    if water.content.chlorophyll_mg_m3[0] > algae.MOST_MG_M3:
        yield (
            f"More than {algae.MOST_MG_M3:g} mg/m³ of chlorophyll: beyond the samples that the "
            "absorption of algae was read from."
        )
    if water.field.down[0].max() < _DARK:
        yield (
            "Next to nothing of the daylight is left at that depth: what is said of brightness "
            "needs an eye that still works there."
        )
    if water.field.is_held()[0]:
        yield (
            "Some bands of the light are held at the evenest that the formulas know, all around "
            "or seen sideways: how bright the water is behind a bait is rougher there."
        )
    ratio = water.medium.scatter_per_m[0] / water.medium.absorb_per_m[0]
    if ratio.max() > MOST_SCATTER_RATIO:
        yield (
            f"The water scatters up to {ratio.max():.0f} times as much as it absorbs; the formula "
            f"for its decay was made for up to {MOST_SCATTER_RATIO:g}."
        )


def _content(draws: Draws, ask: WaterAsk) -> Content:
    loose = properties(ask.kind, MEASURE if ask.secchi_m is None else "")
    given = {n: getattr(ask, n) for n in NAMES}
    return Content(**{
        n: loose[n].drawn(draws) if v is None else draws.known(v) for n, v in given.items()
    })  # fmt: skip
