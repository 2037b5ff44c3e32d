"""What leads from the injector to the noses: mouth, sprue, runner and gates."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pourwright.base.field import out
from pourwright.body.loft import Solid, joined
from pourwright.body.mold.nudge import Nudge
from pourwright.body.mold.rod import ball, rod_x, rod_y

GATE_LONG_MM = 4.0
MOUTH_LONG_MM, SPRUE_LONG_MM = 14.0, 12.0
# Tapers overlap, and the mouth reaches past the edge, so that no two faces coincide.
OVER_MM = 0.1
# A gate of its own choosing is this share of the nose.
GATE_SHARE, GATE_MOST_MM = 0.5, 4.0


@dataclass(frozen=True, slots=True)
class FeedSize:
    """Diameters of a feed."""

    gate_mm: float
    runner_mm: float
    sprue_mm: float
    mouth_mm: float


@dataclass(frozen=True, slots=True)
class FeedSlice:
    """A stretch of the feed; `copies` of it fill side by side."""

    name: str = out("Which stretch of the feed")
    length_mm: float = out("Length")
    width_mm: float = out("Width")
    thick_mm: float = out("Thickness")
    copies: int = out("How many fill side by side")


@dataclass(frozen=True, slots=True)
class Feed:
    """A feed in place: its mouth at `edge_x`, its sprue along `sprue_y`."""

    solid: Solid
    edge_x: float
    runner_x: float
    sprue_y: float
    slices: tuple[FeedSlice, ...]

    @property
    def inside_ml(self) -> float:
        """Volume from the edge of the block on, gates with their ends in the noses."""
        return float(self.solid.trim_by_plane((1.0, 0.0, 0.0), self.edge_x).volume()) / 1000


def own_gate_mm(nose_thick_mm: float, runner_mm: float) -> float:
    """Gate for a nose: half of it, no wider than the runner, and no more than breaks off clean."""
    return min(GATE_MOST_MM, GATE_SHARE * nose_thick_mm, runner_mm)


def feed_of(noses_y: tuple[float, ...], size: FeedSize, nudge: Nudge) -> Feed:
    """The feed of a row of noses at x = 0."""
    runner_x = -(GATE_LONG_MM + max(size.runner_mm, size.sprue_mm) / 2)
    edge_x = runner_x - SPRUE_LONG_MM - MOUTH_LONG_MM
    sprue_y = (noses_y[0] + noses_y[-1]) / 2
    return Feed(
        joined(
            _sprue(edge_x, runner_x, size).translate((0.0, sprue_y, 0.0)),
            _runner(noses_y, size.runner_mm).translate((runner_x, 0.0, 0.0)),
            *(_gate(runner_x, size, nudge).translate((0.0, y, 0.0)) for y in noses_y),
        ),
        edge_x,
        runner_x,
        sprue_y,
        _slices(noses_y, size, -runner_x),
    )


def _sprue(edge_x: float, runner_x: float, size: FeedSize) -> Solid:
    """A mouth that takes the injector's nose, and a straight sprue with a round end."""
    throat = edge_x + MOUTH_LONG_MM
    slope = (size.mouth_mm - size.sprue_mm) / MOUTH_LONG_MM
    mouth = rod_x(edge_x - 1.0, throat, size.mouth_mm + slope, size.sprue_mm)
    shaft = rod_x(throat - OVER_MM, runner_x, size.sprue_mm)
    return joined(mouth, shaft, ball(size.sprue_mm).translate((runner_x, 0.0, 0.0)))


def _runner(noses_y: tuple[float, ...], wide: float) -> Solid:
    """A round runner with round ends; a ball where there is one nose."""
    low, high = noses_y[0], noses_y[-1]
    ends = [ball(wide).translate((0.0, y, 0.0)) for y in dict.fromkeys((low, high))]
    return joined(*ends, rod_y(low, high, wide)) if high > low else ends[0]


def _gate(runner_x: float, size: FeedSize, nudge: Nudge) -> Solid:
    """A cone that is as wide as the gate at the nose, and goes on into it."""
    slope = (size.runner_mm - size.gate_mm) / -runner_x
    inside = max(size.gate_mm - slope * nudge.reach_mm, size.gate_mm / 3)
    turned = nudge.turned_degrees
    cone = rod_x(runner_x, 0.0, size.runner_mm, size.gate_mm, facets=31, turned_degrees=turned)
    tip = rod_x(-OVER_MM, nudge.reach_mm, size.gate_mm, inside, facets=31, turned_degrees=turned)
    return joined(cone, tip)


def _slices(noses_y: tuple[float, ...], size: FeedSize, to_nose_mm: float) -> tuple[FeedSlice, ...]:
    """The feed as stretches, the runner by its mean way to a nose."""
    middle = (noses_y[0] + noses_y[-1]) / 2
    way = sum(abs(y - middle) for y in noses_y) / len(noses_y)
    mouth = math.sqrt(size.mouth_mm * size.sprue_mm)
    round_slices = (
        ("mouth", MOUTH_LONG_MM, mouth, 1),
        ("sprue", SPRUE_LONG_MM, size.sprue_mm, 1),
        *((("runner", way, size.runner_mm, 2),) if way else ()),
        ("gate", to_nose_mm, (size.runner_mm + size.gate_mm) / 2, len(noses_y)),
    )
    return tuple(FeedSlice(n, long, wide, wide, copies) for n, long, wide, copies in round_slices)
