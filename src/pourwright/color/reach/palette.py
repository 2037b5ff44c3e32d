"""The colors wanted, by name."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.reach.question import Wanted
from pourwright.spectrum.color_space import lab_of
from pourwright.spectrum.light import WEIGHTS, Light, white_xyz, xyz_of
from pourwright.spectrum.patches import PATCH_NAMES, PATCH_REFLECTANCE


@dataclass(frozen=True, slots=True, eq=False)
class Palette:
    """Names, and L*a*b* in daylight, (colors, 3)."""

    names: tuple[str, ...]
    labs: Array


def palette_of(wanted: Sequence[Wanted]) -> Palette:
    """The colors given, or the 24 patches of a camera test target where there are none."""
    if not wanted:
        return Palette(PATCH_NAMES, lab_of(xyz_of(PATCH_REFLECTANCE), white_xyz()))
    names = tuple(w.name or f"color {i}" for i, w in enumerate(wanted, 1))
    return Palette(names, np.stack([w.color.labs([WEIGHTS[Light.D65]])[0] for w in wanted]))
