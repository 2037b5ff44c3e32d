"""From a line, a vein and a core to shares of a bait, and from shares to the line."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.source import PRACTICE, estimate, published
from pourwright.body.division import Division, Place
from pourwright.body.division_of import Build, build_of, divided
from pourwright.body.loft import Solid
from pourwright.body.measure import RULER_MISS_MM
from pourwright.body.split import Line, Split
from pourwright.body.split_answer import LayerTold, LineTold, PourTold, SplitAnswer
from pourwright.body.split_bars import Cut, volumes
from pourwright.body.split_input import SplitInput
from pourwright.body.split_pour import Pour, pours_of
from pourwright.matter import plastisol

LINE_OFF = Doubt(
    "height of the line", Band(-0.5, 0.0, 0.5),
    "cut one bait across in five places and measure how high its line lies",
)  # fmt: skip
VEIN_OFF = Doubt(
    "thickness of the vein", Band(0.8, 1.0, 1.25), "weigh the cup before and after ten veins"
)
CORE_OFF = Doubt("volume of the core", Band(0.93, 1.0, 1.07), "weigh ten cores")
# Of a layer thinner than this, no ratio of pushes can be told.
LEAST_PUSHED = 0.01
# How far a line is moved to see what that does, as far as any draw goes.
_TRIED_MM = np.linspace(-1.0, 1.0, 9)
CAUTION = (
    "Plastic at 350 °F (177 °C) sticks and burns: gloves, sleeves and eye protection, extraction "
    "on, and no water near it."
)
FUSES = (
    "Pour a layer onto one that no longer runs but is still hot, or the two come apart: common "
    "practice, no source."
)
ON_SIDE = (
    "The height of this bait lies in the parting plane: for level layers the mold has to stand on "
    "its edge, filled from the top."
)
SHARP = "Layers are taken to part in a sharp line; where hot plastics meet they run together a bit."


@calculation(
    "body.split",
    purpose="shares of the layers from the line between them, and back; pours by hand",
    sources=(
        published("Cavalieri's principle: volume by bars cut at the line"),
        PRACTICE,
        estimate("a line lies within 0.5 mm, a vein is a fifth thinner to a quarter thicker"),
    ),
    example={
        "family": {"kind": "stick", "length_mm": 127, "middle_mm": 10},
        "layers": [{"place": "belly"}, {"place": "vein"}, {"place": "back"}],
        "split": {"line": "poured by hand", "line_height": 0.55, "vein_thick_mm": 0.8},
    },
)
def split_shares(inputs: SplitInput) -> SplitAnswer:
    """Where the layers of a bait part, how much each takes, and how to shoot or pour it.

    Volumes are right within 0.1 % of the bait for the shape as entered. What a vein or a core
    given by its size leaves goes to the layers in proportion of their shares.
    Raises: BadInput for layers told twice or not at all; NoAnswer for shares no bait can have.
    """
    solid = inputs.solid()
    build = build_of(solid, inputs.up())
    division = divided(build, inputs.places, inputs.split, shares=inputs.shares, seed=inputs.seed)
    it = _Split(inputs, build, division, Draws(seed=inputs.seed), _miss(inputs, solid))
    return it.answer()


def _miss(inputs: SplitInput, solid: Solid) -> float:
    """Share of the volume that a ruler misses; a file is taken as it is."""
    if inputs.family is None:
        return 0.0
    return float(solid.surface_area()) * RULER_MISS_MM / float(solid.volume())


@dataclass(frozen=True, slots=True)
class _Split:
    """A division with the doubts around it."""

    inputs: SplitInput
    build: Build
    division: Division
    draws: Draws
    miss: float

    def answer(self) -> SplitAnswer:
        shares = self._shares()
        stack = self.division.stack
        two = len(stack) == 2 and shares[stack[0]].min() >= LEAST_PUSHED
        push = shares[stack[1]] / shares[stack[0]] if two else None
        even = divided(self.build, ("belly", "back"), Split(), shares=(0.5, 0.5)).line_mm
        return SplitAnswer(
            layers=tuple(self._layer(place, share) for place, share in shares.items()),
            lines=tuple(self._lines()),
            even_mm=self._level(even),
            push_ratio=None if push is None else self.draws.band(push),
            pours=tuple(self._pours()),
            notes=tuple(self._notes(shares)),
        )

    def _layer(self, place: str, share: Array) -> LayerTold:
        volume = share * self._size() * self.build.bars.volume_mm3 / 1000
        return LayerTold(place, self.draws.band(share), self.draws.band(volume))

    def _shares(self) -> Mapping[str, Array]:
        """Shares, drawn: each line off its height, vein and core off their size."""
        found = self._shares_by_line()
        inner = {Place.VEIN: VEIN_OFF, Place.CORE: CORE_OFF}
        sized = {
            place.value: found[place] * self.draws.of(doubt.label, doubt)
            for place, doubt in inner.items()
            if self.division.holds(place)
        }
        left = 1 - sum(sized.values(), self.draws.known(0.0))
        stacked = sum((found[p] for p in self.division.stack), self.draws.known(0.0))
        return {p: sized[p] if p in sized else found[p] * left / stacked for p in found}

    def _shares_by_line(self) -> Mapping[str, Array]:
        """The layer over a line loses what a higher line takes from it."""
        rows = [self._shares_at(float(by)) for by in _TRIED_MM]
        found = {p: self.draws.known(row) for p, row in self._shares_at(0.0).items()}
        stack = self.division.stack
        for one, off in zip(stack[1:], self._offs(), strict=True):
            under = stack[: stack.index(one)]
            below = [sum(row[p] for p in under) for row in rows]
            moved = np.interp(off, _TRIED_MM, below) - np.interp(0.0, _TRIED_MM, below)
            found[one] = found[one] - moved
            found[under[-1]] = found[under[-1]] + moved
        return {p: np.maximum(share, 0) for p, share in found.items()}

    def _shares_at(self, by_mm: float) -> Mapping[str, float]:
        """Shares with lines and vein that much higher."""
        it = self.division
        moved = dataclasses.replace(
            it,
            line_mm=it.line_mm + by_mm,
            low_line_mm=it.low_line_mm + by_mm,
            vein_mm=it.vein_mm + by_mm,
        )
        found = volumes(self.build.bars, moved)
        return {p: found[p] / sum(found.values()) for p in it.places}

    def _offs(self) -> tuple[Array, ...]:
        """How far each line is off, from below."""
        return tuple(
            self.draws.of(label, dataclasses.replace(LINE_OFF, label=label))
            for place in self.division.stack[1:]
            for label in (f"height of the line under the {place}",)
        )

    def _size(self) -> Array:
        """Volume of the bait as it is, over that of its shape as entered."""
        if not self.miss:
            return self.draws.known(1.0)
        band = Band(1 - self.miss, 1.0, 1 + self.miss)
        label = "thickness by ruler"
        return self.draws.of(label, Doubt(label, band, "weigh the bait in water"))

    def _cavity(self) -> Array:
        """Length in the cavity over length of the bait."""
        return 1 / (1 - plastisol.LINEAR_SHRINK.drawn(self.draws))

    def _level(self, height_mm: float, off: Array | None = None) -> Band:
        """A height of the bait as one over the lowest place of the cavity."""
        it = self.division
        over = it.high_mm - height_mm if self.inputs.back_first else height_mm - it.low_mm
        return self.draws.band(np.maximum(over + (0.0 if off is None else off), 0) * self._cavity())

    def _lines(self) -> Iterator[LineTold]:
        it = self.division
        cut = Cut(self.build.bars, it)
        for under, over, line, off in zip(
            it.stack[:-1], it.stack[1:], it.lines_mm, self._offs(), strict=True
        ):
            height, level = it.share_of_height(line), self._level(line, off)
            yield LineTold(under, over, height, level, cut.line_area(line))

    def _pours(self) -> Iterator[PourTold]:
        steps = pours_of(self.build.bars, self.division, back_first=self.inputs.back_first)
        to_ml = self._size() * self._cavity() ** 3 / 1000
        total = 0.0
        for step in steps:
            total += step.volume_mm3
            poured, all_in = (self.draws.band(v * to_ml) for v in (step.volume_mm3, total))
            yield PourTold(step.place, self._face(step), poured, all_in)

    def _face(self, step: Pour) -> Band:
        """A full cavity is full, however the line under it lies."""
        full = step.top_mm in {self.division.low_mm, self.division.high_mm}
        return self._level(step.top_mm, None if full or not self._offs() else self._offs()[-1])

    def _notes(self, shares: Mapping[str, Array]) -> Iterator[str]:
        inputs, many = self.inputs, len(self.division.places) > 1
        yield from inputs.body_notes()
        if inputs.split.line is not Line.STRAIGHT:
            yield from left_out(inputs.split)
        yield from width_notes(self.draws, {f"share of the {p}": s for p, s in shares.items()})
        if many:
            yield SHARP
            yield FUSES
        if inputs.up() == 1:
            yield ON_SIDE
        yield CAUTION
