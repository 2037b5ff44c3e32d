"""The section of a cup as colored boxes: one path for each step of the scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.web.heat_scale import color_of, step_of

# Drawn cells to each cell of the sums, by straight lines between their middles.
FINER = 2


@dataclass(frozen=True, slots=True)
class Cells:
    """The right half of a section in boxes of one unit, from the axis and the base up."""

    across: int
    up: int
    paths: tuple[tuple[str, str], ...]


def cells(rows: Sequence[Sequence[float]]) -> Cells:
    """Boxes of temperatures, rows from the base up, each from the axis to the wall, in °C."""
    fine = _finer(np.array(rows))
    steps = [[step_of(float(t)) for t in line] for line in fine]
    drawn: dict[int, list[str]] = {}
    for step, at, row, wide, high in _boxes(steps):
        drawn.setdefault(step, []).append(f"M{at} {row}h{wide}v{high}h-{wide}z")
    return Cells(
        len(steps[0]),
        len(steps),
        tuple((color_of(s), "".join(boxes)) for s, boxes in sorted(drawn.items())),
    )


def _finer(temps: NDArray[np.float64]) -> NDArray[np.float64]:
    for axis in (0, 1):
        count = temps.shape[axis]
        wanted = (np.arange(count * FINER) + 0.5) / FINER - 0.5
        temps = np.apply_along_axis(
            lambda line, c=count, w=wanted: np.interp(w, np.arange(c), line), axis, temps
        )
    return temps


def _boxes(steps: Sequence[Sequence[int]]) -> list[tuple[int, int, int, int, int]]:
    """Boxes (step, column, row, width, height): runs of a row, joined with the like below."""
    found: list[tuple[int, int, int, int, int]] = []
    open_runs: dict[tuple[int, int, int], int] = {}
    for row, line in enumerate([*steps, []]):
        runs = set(_runs(line))
        for run in [r for r in open_runs if r not in runs]:
            since = open_runs.pop(run)
            step, at, wide = run
            found.append((step, at, since, wide, row - since))
        for run in runs:
            open_runs.setdefault(run, row)
    return sorted(found)


def _runs(line: Sequence[int]) -> list[tuple[int, int, int]]:
    """Runs (step, column, width) of like steps along a row."""
    ends = [i for i in range(1, len(line)) if line[i] != line[i - 1]]
    starts = [0, *ends] if line else []
    return [(line[a], a, b - a) for a, b in zip(starts, [*ends, len(line)], strict=False)]
