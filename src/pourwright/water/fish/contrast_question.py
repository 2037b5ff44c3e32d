"""Which looks, which fish, and where: the question of contrast to a fish."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.band import exact
from pourwright.base.draws import Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import number, part, parts, pick, unmeasured
from pourwright.base.record import Record
from pourwright.spectrum.light import BANDS
from pourwright.water.ask import WaterAsk, drawn_water
from pourwright.water.fish.cone_peaks import ConePeak, own_eye
from pourwright.water.fish.eye import NOISE, Eye
from pourwright.water.fish.species import Species, known
from pourwright.water.fish.surface import Surface
from pourwright.water.fish.surroundings import GRAY_SHARE, Surroundings, in_air, under_water
from pourwright.water.kind import WaterKind

USUAL_DEPTH_M = 1.5
_BRIGHTEST_WATER = 100.0
_OF_WATER = ("secchi_m", "depth_m", "away_m")
_OF_ARRAYS = ("light", "background")


@dataclass(frozen=True, slots=True, kw_only=True)
class ContrastInput(Record):
    """Two looks, a fish, and the light and the water they are seen in."""

    first: Surface = part("One look")
    second: Surface = part("The other look")
    species: Species | None = pick("Fish", default=None)
    cones: tuple[ConePeak, ...] = parts("Cones of another fish, two to six", most=6)
    a2_share: float | None = number(
        "Share of the freshwater chromophore in its cones, 0 to 1; left out, as the fish is known",
        low=0, high=1, default=None, label="Freshwater chromophore",
    )  # fmt: skip
    noise: float | None = unmeasured(
        "Least share by which its best cones tell two lights apart, 0 to 1",
        low=0.005, high=1, typical=NOISE.ends, label=NOISE.label, logarithmic=True,
    )  # fmt: skip
    water: WaterKind | None = pick("Water; left out, in the hand", default=None)
    secchi_m: float | None = number(
        "Depth at which a white disk on a cord goes out of sight; left out, that of such water",
        low=0.05, high=60, default=None, label="White disk gone at",
    )  # fmt: skip
    depth_m: float | None = number(
        f"Depth of the bait; left out, {USUAL_DEPTH_M:g} m", low=0, high=60, default=None
    )
    away_m: float | None = number(
        "How far off the fish is, on the level; left out, close by", low=0, high=60, default=None
    )
    light: tuple[float, ...] = parts(
        "Light of your own on the bait: relative power at 400, 410 ... 700 nm, 31 numbers; left "
        "out, daylight at the surface", most=BANDS, low=0, high=1e9,
    )  # fmt: skip
    background: tuple[float, ...] = parts(
        "What lies behind, as a share of what a white surface in the bait's place sends, 31 "
        f"numbers; left out, an even {GRAY_SHARE:g}", most=BANDS, low=0, high=_BRIGHTEST_WATER,
    )  # fmt: skip
    light_lx: float | None = number(
        "Light on the bait; left out, bright", low=0.01, high=150_000, default=None
    )
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse no fish, two fish, a fish without known cones, two waters, half a spectrum."""
        if (self.species is None) == (not self.cones):
            raise BadInput("species", self.species, "give a fish or cones of your own, not both")
        self.eye()
        for name in _OF_ARRAYS:
            _check_spectrum(name, getattr(self, name))
            if self.water is not None and getattr(self, name):
                raise BadInput(name, BANDS, "goes without a water, which brings its own")
        for name in _OF_WATER:
            if self.water is None and getattr(self, name) is not None:
                raise BadInput("water", None, f"is required with {name}")

    def eye(self) -> Eye:
        """The eye asked about, with what was typed in place of what is known."""
        found = known(self.species).eye if self.species else own_eye(self.cones)
        a2 = found.a2 if self.a2_share is None else exact(self.a2_share)
        noise = NOISE.band if self.noise is None else exact(self.noise)
        return Eye(found.name, found.cones, a2, noise)

    def surroundings(self, draws: Draws) -> Surroundings:
        """The light and the water, with what is loose about them.

        Raises: NoAnswer for a white disk's depth that no such water has.
        """
        if self.water is None:
            light, behind = (np.array(getattr(self, n)) if getattr(self, n) else None
                             for n in _OF_ARRAYS)  # fmt: skip
            return in_air(light, behind)
        depth_m = USUAL_DEPTH_M if self.depth_m is None else self.depth_m
        ask = WaterAsk(kind=self.water, secchi_m=self.secchi_m, depth_m=depth_m)
        return under_water(drawn_water(draws, ask).field, away_m=self.away_m or 0.0)


def _check_spectrum(name: str, values: tuple[float, ...]) -> None:
    if values and len(values) != BANDS:
        raise BadInput(name, len(values), f"needs {BANDS} values")
    if values and max(values) <= 0:
        raise BadInput(name, 0, "must hold some light")
