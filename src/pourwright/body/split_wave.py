"""How a line between two layers swings along the bait."""

from __future__ import annotations

import math

import numpy as np

from pourwright.body.division import Wave
from pourwright.body.split import SWING_MM, Line, Split

# Length of a wave in heights of the bait, and how fast the layers blend at the line; estimates.
WAVE_HEIGHTS = 2.5
SOFT_MM = {Line.STRAIGHT: 0.15, Line.WAVY: 0.25, Line.POURED: 0.4}
# Of a line poured by hand: how its waves go on from the longest, and how they lean at most.
FINER, FAINTER, SLANT_RAD_PER_MM = (1.0, 1.7, 3.1), (1.0, 0.6, 0.35), 0.25


def waves_of(split: Split, *, length_mm: float, height_mm: float, seed: int) -> tuple[Wave, ...]:
    """Whole waves over the length of the bait, so that they move hardly any plastic."""
    if split.line is Line.STRAIGHT:
        return ()
    swing = SWING_MM.typical if split.wave_mm is None else split.wave_mm
    chance = np.random.Generator(np.random.PCG64(seed))
    longest = max(1, round(length_mm / (WAVE_HEIGHTS * height_mm)))
    if split.line is Line.WAVY:
        return (_wave(chance, swing, length_mm / longest, slant=0.0),)
    # Together as restless as one wave of that swing.
    each = swing / math.hypot(*FAINTER)
    return tuple(
        _wave(chance, each * faint, length_mm / round(longest * fine), slant=SLANT_RAD_PER_MM)
        for fine, faint in zip(FINER, FAINTER, strict=True)
    )


def _wave(chance: np.random.Generator, swing: float, length: float, *, slant: float) -> Wave:
    phase, lean = chance.uniform(-1, 1, 2).tolist()
    return Wave(swing, length, math.pi * phase, slant * lean)
