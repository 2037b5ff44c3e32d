"""Three ways to read a puck, each with the errors that stay and the errors that pass."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

import numpy as np

from pourwright.base.draws import Array
from pourwright.spectrum.color_space import lab_of
from pourwright.spectrum.light import BANDS, white_xyz, xyz_of


class Instrument(Protocol):
    """Turns true reflectance (readings, 31) into what the maker writes down."""

    def read(self, reflectance: Array, rng: np.random.Generator) -> Array:
        """31 reflectances or Lab (D65, 2 degree) for each reading."""


def as_lab(reading: Array) -> Array:
    """Lab (D65, 2 degree) of a reading of either sort."""
    return lab_of(xyz_of(reading), white_xyz()) if reading.shape[-1] == BANDS else reading


@dataclass(frozen=True, slots=True)
class Spectro:
    """A sphere spectrophotometer: gain error by reading, noise by band, no value below zero."""

    gain_sd: float = 0.01
    noise_sd: float = 0.003

    def read(self, reflectance: Array, rng: np.random.Generator) -> Array:
        """Reflectance on the 31 bands."""
        gain = 1 + self.gain_sd * rng.normal(size=(*reflectance.shape[:-1], 1))
        noise = self.noise_sd * rng.normal(size=reflectance.shape)
        return np.asarray(np.maximum(gain * reflectance + noise, 0))


@dataclass(frozen=True, slots=True)
class HandheldLab:
    """A pocket meter that shows three numbers: a gain of its own, and noise of 0.3 in all."""

    gain: float = 1.0
    noise_sd: float = 0.3

    def read(self, reflectance: Array, rng: np.random.Generator) -> Array:
        """Lab, D65, 2 degree observer."""
        lab = lab_of(self.gain * xyz_of(reflectance), white_xyz())
        return np.asarray(lab + self.noise_sd / np.sqrt(3) * rng.normal(size=lab.shape))


@dataclass(frozen=True, slots=True, eq=False)
class Phone:
    """A phone's photo mended with a 24-patch target; one call of `read` is one photo.

    The error is a smooth function of lightness, chroma and hue. One part belongs to the phone
    (`habit`, its sensor is not an eye), one to the photo (light and exposure), and a last one is
    new for each puck. The sizes give a median near 2 dE00 over pucks of the invented shelves: the
    color sheet, section 4, has 1.8 to 2.0 in daylight and under an LED, 2.4 to 2.6 under a lamp.
    """

    habit: Array
    photo_sd: float = 0.8
    puck_sd: float = 1.1

    def read(self, reflectance: Array, rng: np.random.Generator) -> Array:
        """Lab, D65, 2 degree observer, as the mended photo has it."""
        lab = as_lab(reflectance)
        drift = self.habit + self.photo_sd * rng.normal(size=self.habit.shape)
        read = lab + _shape(lab) @ drift + self.puck_sd * rng.normal(size=lab.shape)
        read[..., 0] = np.maximum(read[..., 0], 0)
        return np.asarray(read)


def random_handheld(rng: np.random.Generator) -> HandheldLab:
    """A pocket meter off by 1 % in gain from the next one (standard deviation)."""
    return HandheldLab(gain=float(1 + 0.01 * rng.normal()))


def random_phone(rng: np.random.Generator) -> Phone:
    """A phone with a sensor of its own."""
    return Phone(habit=0.8 * rng.normal(size=(6, 3)))


def _shape(lab: Array) -> Array:
    """Six smooth functions: level, lightness, and chroma once and twice around the hues."""
    light, hue = (lab[..., 0] - 50) / 50, np.arctan2(lab[..., 2], lab[..., 1])
    chroma = np.hypot(lab[..., 1], lab[..., 2]) / 50
    turns = [chroma * wave(k * hue) for k in (1, 2) for wave in (np.cos, np.sin)]
    return np.stack([np.ones_like(light), light, *turns], axis=-1)
