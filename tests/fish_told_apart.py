"""Two reflectances before a fish, in a light of the test's own."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array, Draws
from pourwright.water.fish.eye import Eye
from pourwright.water.fish.surroundings import Surroundings
from pourwright.water.fish.told_apart import Gaze, Telling


@dataclass(frozen=True, slots=True)
class ToldApart:
    """Two looks against each other, and each against the water behind it."""

    looks: Telling
    first_on_water: Telling
    second_on_water: Telling


def told_apart(
    one: Array,
    two: Array,
    light: Array,
    background: Array,
    eye: Eye,
    *,
    lets: tuple[Array, Array] | None = None,
    light_lx: float | None = None,
    seed: int = 1,
) -> ToldApart:
    """Two reflectances, (31,), in a light, before a background, to an eye.

    `light` is what a perfect white sends to the eye in it, `background` what the water sends, both
    as power on the 31 bands in one unit; `lets` is what each look lets through of the background.
    Without `light_lx`, the light on the bait in lux, the light is taken as bright.
    Raises: BadInput for spectra of another length, or without light.
    """
    gaze = Gaze(Draws(seed=seed), eye, light, light_lx=light_lx)
    there = Surroundings(light, background, np.ones(1))
    through = (np.zeros(1), np.zeros(1)) if lets is None else lets
    first = gaze.caught("first", there.light_of(one, through[0]))
    second = gaze.caught("second", there.light_of(two, through[1]))
    water = gaze.caught("background", background)
    pairs = ((first, second), (first, water), (second, water))
    return ToldApart(*(gaze.steps(*pair).telling(gaze.draws) for pair in pairs))
