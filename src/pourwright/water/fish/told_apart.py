"""Which of two looks a fish tells apart, and each from the water behind it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array, Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import out
from pourwright.water.fish.dim import photons
from pourwright.water.fish.eye import Eye, check_bands
from pourwright.water.fish.noise import brightness_steps, class_noise, color_steps, with_photons

CLOSE_FROM, CLEAR_FROM = 1.0, 3.0


@dataclass(frozen=True, slots=True)
class Telling:
    """How far apart two lights are to an eye, in steps that it can only just tell."""

    color_words: str = out("By color")
    color_jnd: Band = out("Steps by color; one step is the least that its eye could tell")
    brightness_words: str = out("By brightness")
    brightness_jnd: Band = out("Steps by brightness; a rougher model than that of color")


@dataclass(frozen=True, slots=True)
class Steps:
    """Steps by color and by brightness, draw by draw."""

    color: Array
    brightness: Array

    def telling(self, draws: Draws) -> Telling:
        """Their bands, and words for them."""
        color, brightness = draws.band(self.color), draws.band(self.brightness)
        return Telling(in_words(color), color, in_words(brightness), brightness)


class Gaze:
    """An eye under a light, its doubts drawn once."""

    def __init__(
        self, draws: Draws, eye: Eye, light: Array, *, light_lx: float | None = None
    ) -> None:
        check_bands("light", light)
        self.draws, self.eye, self.light_lx = draws, eye, light_lx
        self._a2 = eye.drawn_a2(draws)
        self._cells = eye.drawn_cells(draws)
        self._noise = class_noise(eye.drawn_noise(draws), self._cells, len(eye.cones) - 1)
        self._white = self.caught("light", light)

    def caught(self, name: str, light: Array) -> Array:
        """What the cones catch of a light, (draws, cones); `name` says whose it is."""
        check_bands(name, light)
        caught = self.eye.caught(light, self._a2)
        if caught.min() <= 0:
            raise BadInput(name, float(light.max()), "holds no light that every cone catches")
        return caught

    def steps(self, one: Array, two: Array) -> Steps:
        """Steps between two catches."""
        gaps, noise = np.log(one / two), self._seen_noise(one, two)
        return Steps(color_steps(gaps, noise), brightness_steps(gaps[..., -1], noise[..., -1]))

    def _seen_noise(self, one: Array, two: Array) -> Array:
        if self.light_lx is None:
            return self._noise
        counts = (
            self._cells * photons(self.draws, caught, self._white, self.light_lx)
            for caught in (one, two)
        )
        return with_photons(self._noise, *counts)


def in_words(steps: Band) -> str:
    """Steps in words, and what else they may be. The limits are common practice, no source.

    >>> in_words(Band(1.6, 2.3, 3.2))
    'close; may be clear'
    """
    typical = _word(steps.typical)
    others = [w for w in (_word(steps.low), _word(steps.high)) if w != typical]
    return f"{typical}; may be {' or '.join(others)}" if others else typical


def _word(steps: float) -> str:
    if steps < CLOSE_FROM:
        return "hard to tell"
    return "close" if steps < CLEAR_FROM else "clear"
