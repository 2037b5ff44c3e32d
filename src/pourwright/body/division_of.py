"""From a bait's solid and what a look says of its layers to where each layer lies."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

import numpy as np
from scipy.optimize import brentq

from pourwright.base.errors import NoAnswer
from pourwright.body.division import Division, Place, Profile
from pourwright.body.loft import Solid
from pourwright.body.split import Split
from pourwright.body.split_bars import Bars, bars_of, volumes
from pourwright.body.split_profile import profile_of
from pourwright.body.split_wave import SOFT_MM, waves_of

LARGEST_CORE = 0.95
# A bait is hollow if less than this of so thin a core is plastic; estimate.
BORE_CORE, BORE_PLASTIC = 0.2, 0.85
# A line lies no better than this, far under what a ruler reads.
LINE_MM = 1e-4
# A vein rides on a line whose height follows from what the vein leaves: so often in turn.
TURNS = 3


@dataclass(frozen=True, slots=True, eq=False)
class Build:
    """What of a bait's shape its layers ask for; worth keeping for as long as the shape stays.

    Two builds are the same only if they are the same object, so nothing is compared bar by bar.
    """

    up: int
    low_mm: float
    high_mm: float
    length_mm: float
    width_mm: float
    bars: Bars
    profile: Profile


def build_of(solid: Solid, up: int) -> Build:
    """The build of a solid whose back points along that axis (1 or 2)."""
    box = solid.bounding_box()
    across = 3 - up
    return Build(
        up=up,
        low_mm=box[up],
        high_mm=box[up + 3],
        length_mm=box[3] - box[0],
        width_mm=box[across + 3] - box[across],
        bars=bars_of(solid, up),
        profile=profile_of(solid, up),
    )


def division_of(
    solid: Solid,
    up: int,
    places: tuple[str, ...],
    split: Split,
    *,
    shares: tuple[float | None, ...],
    seed: int = 1,
) -> Division:
    """Where the layers of a look lie in a bait; what `split` leaves open follows from `shares`.

    Where a vein or a core is given by its measure, layers that lie one on the other keep the
    proportion of their shares in what is left; a share of None takes the rest.
    Raises: BadInput for layers that do not go together; NoAnswer for shares no bait can have.
    """
    return divided(build_of(solid, up), places, split, shares=shares, seed=seed)


def divided(
    build: Build,
    places: tuple[str, ...],
    split: Split,
    *,
    shares: tuple[float | None, ...],
    seed: int = 1,
) -> Division:
    """The same, of a build."""
    split.refuse_odd_places(places)
    wanted = dict(zip(places, shares, strict=True))
    height = build.high_mm - build.low_mm
    middle = build.low_mm + height / 2
    start = Division(
        places=places,
        up=build.up,
        low_mm=build.low_mm,
        high_mm=build.high_mm,
        line_mm=middle,
        low_line_mm=middle,
        soft_mm=SOFT_MM[split.line],
        waves=waves_of(split, length_mm=build.length_mm, height_mm=height, seed=seed),
        vein_mm=middle,
        vein_thick_mm=split.vein_thick_mm or 0.0,
        vein_wide_mm=split.vein_wide_mm or 2 * build.width_mm,
        core_share=split.core_share or 0.0,
        profile=build.profile,
    )
    return _Laying(build, split, wanted).laid(start)


@dataclass(frozen=True, slots=True)
class _Laying:
    """Layers laid one after the other: core, then lines and the vein between them in turn."""

    build: Build
    split: Split
    wanted: Mapping[str, float | None]

    def laid(self, start: Division) -> Division:
        done = self._cored(start)
        for _ in range(TURNS if done.holds(Place.VEIN) else 1):
            done = self._veined(self._lined(done))
        if done.low_line_mm > done.line_mm:
            raise NoAnswer("the belly would end over the line under the back")
        return done

    def _cored(self, division: Division) -> Division:
        if not division.holds(Place.CORE):
            return division

        def laid(share: float) -> Division:
            return replace(division, core_share=share)

        self._refuse_bore(laid(BORE_CORE))
        if self.split.core_share:
            return division
        return laid(self._fitted(Place.CORE, laid, LARGEST_CORE))

    def _refuse_bore(self, thin: Division) -> None:
        """Refuse a core where the bait is hollow."""
        it = thin.profile
        section = np.pi * thin.core_share**2 * it.half_up_mm * it.half_across_mm
        whole = float(np.trapezoid(section, it.station_mm))
        if volumes(self.build.bars, thin)[Place.CORE] < BORE_PLASTIC * whole:
            raise NoAnswer("this bait is hollow, so it holds no core")

    def _veined(self, division: Division) -> Division:
        if self.split.vein_thick_mm or not division.holds(Place.VEIN):
            return division

        def laid(thick_mm: float) -> Division:
            return replace(division, vein_thick_mm=thick_mm)

        return laid(self._fitted(Place.VEIN, laid, 2 * (division.high_mm - division.low_mm)))

    def _lined(self, division: Division) -> Division:
        split, stack = self.split, division.stack
        if len(stack) > 1:
            division = self._line(division, split.line_height, self._with_line, stack[-1], stack[0])
        if len(stack) > 2:
            division = self._line(division, split.belly_height, _with_low_line, stack[0], stack[-1])
        if split.vein_height is not None:
            division = replace(division, vein_mm=self._height_mm(split.vein_height))
        return division

    def _line(
        self,
        division: Division,
        height: float | None,
        put: Callable[[Division, float], Division],
        one: str,
        other: str,
    ) -> Division:
        """A line at its stated height, or where the layer on one side of it gets its share."""
        if height is not None:
            return put(division, self._height_mm(height))
        place = one if self.wanted[one] is not None else other
        share = self._share_of(division.stack, place)

        def miss(line_mm: float) -> float:
            return share(volumes(self.build.bars, put(division, line_mm)))

        reach = sum(wave.amplitude_mm for wave in division.waves)
        low, high = division.low_mm - reach, division.high_mm + reach
        if miss(low) * miss(high) > 0:
            raise NoAnswer(f"vein and core leave too little of this bait for so much {place}")
        return put(division, float(brentq(miss, low, high, xtol=LINE_MM)))

    def _share_of(
        self, stack: tuple[str, ...], place: str
    ) -> Callable[[Mapping[str, float]], float]:
        """How far a layer is over its share: of the stack where all of it is told, or of all."""
        told = [share for one in stack if (share := self.wanted[one]) is not None]
        wanted = self.wanted[place]
        if wanted is None:
            raise TypeError(f"nothing tells where the {place} ends")
        if len(told) < len(stack):
            return lambda found: found[place] / sum(found.values()) - wanted
        return lambda found: found[place] / sum(found[one] for one in stack) - wanted / sum(told)

    def _with_line(self, division: Division, line_mm: float) -> Division:
        """A vein without a height of its own rides on the line."""
        vein = division.vein_mm if self.split.vein_height is not None else line_mm
        low = division.low_line_mm if len(division.stack) > 2 else line_mm
        return replace(division, line_mm=line_mm, low_line_mm=low, vein_mm=vein)

    def _height_mm(self, share: float) -> float:
        return self.build.low_mm + share * (self.build.high_mm - self.build.low_mm)

    def _fitted(self, place: Place, laid: Callable[[float], Division], most: float) -> float:
        """The size at which a vein or a core gets its share of the bait."""
        whole, wanted = self.build.bars.volume_mm3, self.wanted[place]
        if wanted is None:
            raise TypeError(f"nothing tells how large the {place} is")

        def miss(size: float) -> float:
            return volumes(self.build.bars, laid(size))[place] / whole - wanted

        if miss(most) < 0:
            raise NoAnswer(
                f"the {place} of this bait takes at most {miss(most) + wanted:.2f} of its volume"
            )
        return float(brentq(miss, 0.0, most, xtol=LINE_MM))


def _with_low_line(division: Division, line_mm: float) -> Division:
    return replace(division, low_line_mm=line_mm)
