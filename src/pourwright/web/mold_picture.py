"""A mold drawn along its pull: feed, cavities side by side in the order of filling, dead ends."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.filling import FillingMap
from pourwright.forecast.mold_feed import GATE_LONG_MM, FeedSizes
from pourwright.forecast.mold_way import Cavity
from pourwright.web.solid_scale import FILLED

_MARGIN_MM = 3.0
# Radius of a ring, as a share of the picture's width.
_RING = 0.011


@dataclass(frozen=True, slots=True)
class MoldPicture:
    """All of it in mm; `paths` are one cavity in cells of `pitch`, its nose at the origin."""

    view_box: str
    feed: tuple[tuple[float, float, float, float], ...]
    paths: tuple[tuple[str, str], ...]
    pitch: float
    places: tuple[tuple[float, float], ...]
    rings: tuple[tuple[float, float], ...]
    ring: float
    words: str


def mold_picture(cavity: Cavity, feed: FeedSizes, cavities: int) -> MoldPicture:
    """Cavities to the right of the runner, the sprue to its left."""
    filled, half = cavity.filled, cavity.filled.pitch_mm / 2
    source = filled.xy[int(np.argmin(filled.path_mm))]
    low, high = (filled.xy.min(axis=0) - half, filled.xy.max(axis=0) + half)
    rise = [(i - (cavities - 1) / 2) * feed.pitch_mm for i in range(cavities)]
    left = -(GATE_LONG_MM + feed.runner_mm + feed.sprue_length_mm)
    top = rise[0] - max(high[1] - source[1], feed.sprue_mm / 2) - _MARGIN_MM
    bottom = rise[-1] + max(source[1] - low[1], feed.sprue_mm / 2) + _MARGIN_MM
    wide = float(high[0] - source[0]) - left + 2 * _MARGIN_MM
    ends = [(float(e.x_mm - source[0]), float(source[1] - e.y_mm)) for e in filled.dead_ends()]
    return MoldPicture(
        view_box=f"{left - _MARGIN_MM:.1f} {top:.1f} {wide:.1f} {bottom - top:.1f}",
        feed=tuple(_feed(feed, rise)),
        paths=_paths(filled, source),
        pitch=round(filled.pitch_mm, 4),
        places=tuple((0.0, round(y, 2)) for y in rise),
        rings=tuple((round(x, 1), round(y, 1)) for x, y in ends),
        ring=round(_RING * wide, 2),
        words=_words(cavities, len(ends)),
    )


def _feed(feed: FeedSizes, rise: list[float]) -> Iterator[tuple[float, float, float, float]]:
    """Rectangles of sprue, runner and gates: left, top, width, height."""
    right = -GATE_LONG_MM - feed.runner_mm
    sprue = (right - feed.sprue_length_mm, -feed.sprue_mm / 2)
    yield (*sprue, feed.sprue_length_mm + feed.runner_mm / 2, feed.sprue_mm)
    reach = rise[-1] - rise[0] + feed.runner_mm
    yield right, rise[0] - feed.runner_mm / 2, feed.runner_mm, reach
    for y in rise:
        wide = GATE_LONG_MM + feed.runner_mm / 2
        yield -wide, y - feed.gate_width_mm / 2, wide + feed.gate_thick_mm / 4, feed.gate_width_mm


def _paths(filled: FillingMap, source: Array) -> tuple[tuple[str, str], ...]:
    """One path for each color: runs of cells along a row, the nose at the origin."""
    column, row = np.rint((filled.xy - source) / filled.pitch_mm).astype(int).T
    step = np.minimum((filled.order * len(FILLED)).astype(int), len(FILLED) - 1)
    by_row = sorted(zip((-row).tolist(), column.tolist(), step.tolist(), strict=True))
    drawn: dict[int, list[str]] = {}
    for (line, color, _), cells in groupby(enumerate(by_row), key=_run):
        run = [cell[1] for _, cell in cells]
        drawn.setdefault(color, []).append(f"M{run[0]} {line}h{len(run)}v1h-{len(run)}z")
    return tuple((FILLED[color], "".join(runs)) for color, runs in sorted(drawn.items()))


def _run(numbered: tuple[int, tuple[int, int, int]]) -> tuple[int, int, int]:
    """Cells that follow one another in a row share row, color, and column less their number."""
    number, (line, column, color) = numbered
    return line, color, column - number


def _words(cavities: int, ends: int) -> str:
    sorts = "1 cavity" if cavities == 1 else f"{cavities} cavities side by side"
    places = "1 place fills" if ends == 1 else f"{ends} places fill"
    return f"{sorts}, dark fills first; {places} last in each and wants a vent"
