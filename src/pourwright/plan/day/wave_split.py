"""How a cup's shots part into waves: one heating pours as many molds as there are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from pourwright.plan.day.day_input import DayCup, DayInput


@dataclass(frozen=True, slots=True)
class ShotsLeft:
    """Shots still to be poured into one sort of mold, and the time of one."""

    mold: str
    shots: int
    pour_s: int


def waves_of(
    fills: Sequence[ShotsLeft], counts: Mapping[str, int], pour_most_s: int | None
) -> tuple[tuple[ShotsLeft, ...], ...]:
    """Waves in order; each fills no mold twice and pours no longer than one heating allows."""
    left = [fill.shots for fill in fills]
    waves = []
    while any(left):
        wave, time_left = [], pour_most_s
        for i, fill in enumerate(fills):
            shots = min(left[i], counts[fill.mold])
            if time_left is not None:
                shots = min(shots, time_left // fill.pour_s)
                time_left -= shots * fill.pour_s
            if shots:
                wave.append(ShotsLeft(fill.mold, shots, fill.pour_s))
                left[i] -= shots
        waves.append(tuple(wave))
    return tuple(waves)


def microwave_s(cup: DayCup, inputs: DayInput) -> int:
    """All heatings of a cup that has not been begun, together."""
    counts = {mold.name: mold.count for mold in inputs.molds}
    fills = [ShotsLeft(fill.mold, fill.shots, fill.pour_s) for fill in cup.fills]
    waves = waves_of(fills, counts, inputs.pour_most_s)
    return cup.heat_s + inputs.rewarm_s * (len(waves) - 1)
