"""Sprue, runner and gate of a mold, as far as anybody measured them, and what they hold."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from pourwright.base.errors import BadInput
from pourwright.base.field import number, unmeasured
from pourwright.base.record import Record
from pourwright.base.typical import all_typical
from pourwright.fill.slice import Part, SlicePart

# Metal between two cavities, and the length of a gate where nobody measured them: estimates.
WALL_MM, GATE_LONG_MM = 8.0, 4.0


@dataclass(frozen=True, slots=True, kw_only=True)
class MoldFeed(Record):
    """The way from the nozzle to the cavities; cavities lie side by side along one runner."""

    sprue_mm: float | None = unmeasured(
        "Sprue across", low=2, high=40, typical=(6, 8, 12),
        measure="measure the sprue of one shot with a caliper",
    )  # fmt: skip
    sprue_length_mm: float | None = unmeasured(
        "Sprue, length", low=1, high=300, typical=(20, 40, 60),
        measure="measure the sprue of one shot with a ruler",
    )  # fmt: skip
    runner_mm: float | None = unmeasured(
        "Runner across", low=1, high=30, typical=(5, 6, 8),
        measure="measure the runner of one shot with a caliper",
    )  # fmt: skip
    gate_width_mm: float | None = unmeasured(
        "Gate, width", low=0.5, high=60, typical=(3, 4, 7),
        measure="measure the scar at the nose of a bait with a caliper",
    )  # fmt: skip
    gate_thick_mm: float | None = unmeasured(
        "Gate, thickness", low=0.5, high=40, typical=(3, 4, 5),
        measure="measure the scar at the nose of a bait with a caliper",
    )  # fmt: skip
    pitch_mm: float | None = number(
        "From one cavity to the next; left out, a bait's width and some metal",
        low=3, high=300, default=None,
    )  # fmt: skip

    def check(self) -> None:
        """Refuse a gate thicker than wide."""
        both = self.gate_width_mm is not None and self.gate_thick_mm is not None
        if both and self.gate_thick_mm > self.gate_width_mm:  # type: ignore[operator]
            raise BadInput("gate_thick_mm", self.gate_thick_mm, "must not exceed the gate's width")


@dataclass(frozen=True, slots=True)
class FeedSizes:
    """Every measure of a feed, typical ones for those left out."""

    sprue_mm: float
    sprue_length_mm: float
    runner_mm: float
    gate_width_mm: float
    gate_thick_mm: float
    pitch_mm: float

    def slices(self, cavities: int) -> tuple[SlicePart, ...]:
        """The feed in the order of filling: the way to the cavity that lies farthest."""
        return (*self._sprue(), *self._runner(cavities), self._gates(cavities))

    def _sprue(self) -> Iterable[SlicePart]:
        yield SlicePart(
            length_mm=self.sprue_length_mm, width_mm=self.sprue_mm, thick_mm=self.sprue_mm,
            part=Part.SPRUE,
        )  # fmt: skip

    def _runner(self, cavities: int) -> Iterable[SlicePart]:
        """Two arms from the sprue in the middle; none to a single cavity."""
        if cavities > 1:
            yield SlicePart(
                length_mm=(cavities - 1) / 2 * self.pitch_mm, width_mm=self.runner_mm,
                thick_mm=self.runner_mm, copies=2, part=Part.RUNNER,
            )  # fmt: skip

    def _gates(self, cavities: int) -> SlicePart:
        return SlicePart(
            length_mm=GATE_LONG_MM, width_mm=self.gate_width_mm, thick_mm=self.gate_thick_mm,
            copies=cavities, part=Part.GATE,
        )  # fmt: skip

    def shadow_cm2(self, cavities: int) -> float:
        """Area of runner and gates along the pull; a sprue at the edge lies in the plane too."""
        return sum(s.length_mm * s.width_mm * s.copies for s in self.slices(cavities)) / 100


def sizes(feed: MoldFeed, *, bait_width_mm: float) -> FeedSizes:
    """A feed with the typical measures for those left out; a gate is never thicker than wide."""
    usual = all_typical(feed)
    wide, thick = usual.pop("gate_width_mm"), usual.pop("gate_thick_mm")
    if feed.gate_width_mm is None:
        wide = max(wide, thick)
    return FeedSizes(
        **usual,
        gate_width_mm=wide,
        gate_thick_mm=min(thick, wide),
        pitch_mm=feed.pitch_mm or bait_width_mm + WALL_MM,
    )


def volume_ml(slices: Iterable[SlicePart]) -> float:
    """What slices hold, each an ellipse all along."""
    each = (math.pi / 4 * s.width_mm * s.thick_mm * s.length_mm * s.copies for s in slices)
    return sum(each) / 1000
