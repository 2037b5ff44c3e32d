"""Contrast of a bait against the water behind it, and how far off an eye still makes it out."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.source import memory
from pourwright.spectrum.light import EYE
from pourwright.water.field import LightField

SOURCE = memory(
    "Duntley, J. Opt. Soc. Am. 53 (1963) 214; Preisendorfer, Hydrologic Optics (1976): contrast "
    "falls as exp(-(c - K sin) r)"
)
_STEPS = 160
_HALVINGS = 30
SEES = EYE[:, 1]


@dataclass(frozen=True, slots=True)
class SightLine:
    """A bait before its water: radiances at no distance, and how both fade on the way to the eye.

    `behind_per_m` is how fast the water's own radiance grows fainter from the bait's depth to
    the eye's. The last axis holds the 31 bands.
    """

    bait: Array
    behind: Array
    beam_per_m: Array
    behind_per_m: Array

    @property
    def contrast(self) -> Array:
        """By band, (bait - water) / water, at no distance."""
        return np.asarray((self.bait - self.behind) / self.behind)

    @property
    def fade_per_m(self) -> Array:
        """How fast the contrast of a band falls."""
        return np.asarray(self.beam_per_m - self.behind_per_m)

    def eye_contrast(self, range_m: Array) -> Array:
        """Contrast in brightness to a daylight-adapted eye at a distance of each draw."""
        far = range_m[..., None]
        odd = (self.bait - self.behind) * np.exp(-self.beam_per_m * far)
        water = self.behind * np.exp(-self.behind_per_m * far)
        return np.asarray((odd @ SEES) / (water @ SEES))


def sight_line(field: LightField, *, sends: Array, lets: Array, sine: float) -> SightLine:
    """A bait that sends back and lets through these shares, seen along a line.

    `sine` is of the angle the eye looks up, -1 to 1. What the bait lets through is a clear view
    of the water behind it; the face it shows points back at the eye. Looking up, the water's
    radiance grows fainter no faster than absorption and scattering backward make it.
    """
    medium = field.medium
    behind = field.seen(sine)
    bait = sends * field.falls_on(-sine) / np.pi + lets * behind
    slowest = np.minimum(field.decay_per_m, medium.absorb_per_m + medium.back_per_m)
    per_depth = slowest if sine > 0 else field.decay_per_m
    return SightLine(bait, behind, medium.beam_per_m, per_depth * sine)


def hiding_reflectance(field: LightField, *, lets: Array, sine: float) -> Array:
    """The share sent back with which a bait would be the color of the water behind it."""
    light = field.falls_on(-sine) / np.pi
    return np.asarray((1 - lets) * field.seen(sine) / light)


def even_hiding_reflectance(field: LightField, *, lets: Array, sine: float) -> Array:
    """The gray that does so to the eye: one share for all bands, by brightness."""
    weights = field.falls_on(-sine) * SEES
    hides = hiding_reflectance(field, lets=lets, sine=sine)
    return np.asarray((hides * weights).sum(axis=-1) / weights.sum(axis=-1))


def band_range_m(line: SightLine, threshold: Array) -> Array:
    """Farthest distance by band at which its contrast reaches the threshold; 0 where never."""
    start = np.abs(line.contrast) / threshold[..., None]
    return np.asarray(np.log(np.maximum(start, 1.0)) / line.fade_per_m)


def eye_range_m(line: SightLine, threshold: Array) -> Array:
    """Farthest distance at which the contrast in brightness reaches the threshold.

    It may cross zero on the way, as bands fade at their own speeds; beyond the farthest range
    of any band it cannot reach the threshold, so the search starts there.
    """
    end = band_range_m(line, threshold).max(axis=-1)
    steps = np.linspace(0, 1, _STEPS + 1)
    seen = np.stack([np.abs(line.eye_contrast(end * s)) >= threshold for s in steps])
    last = _STEPS - seen[::-1].argmax(axis=0)
    near, far = end * steps[last], end * steps[np.minimum(last + 1, _STEPS)]
    for _ in range(_HALVINGS):
        middle = (near + far) / 2
        still = np.abs(line.eye_contrast(middle)) >= threshold
        near, far = np.where(still, middle, near), np.where(still, far, middle)
    return np.where(seen.any(axis=0), near, 0.0)
