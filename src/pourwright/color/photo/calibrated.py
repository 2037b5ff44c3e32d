"""A photo whose colors are known, fitted to the patches in it and tried on patches left out."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import NoAnswer
from pourwright.color.photo.camera import weight_of
from pourwright.color.photo.facing import Seen
from pourwright.color.photo.joint import Fit, Sample, joint_fit, left_out
from pourwright.color.photo.lighting import Frame, frame_of
from pourwright.color.photo.spot import Reading
from pourwright.color.photo.target import Target
from pourwright.spectrum.color_space import lab_of
from pourwright.spectrum.difference import delta_e00
from pourwright.spectrum.light import white_xyz

_LIGHTEST = 0.9
# One print against another, about one CIEDE2000: mostly lighter or darker, less in hue; estimate.
_PRINT = 0.5 * np.ones((3, 3)) + 0.04 * np.eye(3)
# Colors misjudged side by side pull the fall-off of light with them, which the sums take for
# chance: their variance is raised by this beside the card's, as generated photos ask for; estimate.
_PULLED = 10.0
# Missed by more, on patches left out, the picture is not what it is taken for; estimate.
_MOST_LEFT_OUT = 8.0


@dataclass(frozen=True, slots=True)
class Calibrated:
    """Turns what a place shows into XYZ.

    `miss` is the covariance of a color's miss in units of `camera.weight_of`; `left_out_de00`
    holds NaN for patches that were not used; `card_miss` is the most, in logs, by which the
    other places on bare card misjudge one.
    """

    target: Target
    frame: Frame
    fit: Fit
    lightest: float
    miss: Array
    left_out_de00: Array
    card_miss: float

    def xyz(self, read: Reading, at: Array) -> tuple[Array, Array, Array]:
        """D65 XYZ (white at Y = 100) of a place in pixels (2,), and two covariances (3, 3).

        The first is of all that may be off, the second the part of it from the fall-off of light.
        """
        monomials = self.target.monomials(_scaled(read.linear[None], self.lightest))
        terms = self.frame.terms(at[None])
        outputs = self.fit.colors(monomials, terms)[0]
        to_xyz = self.target.to_xyz()
        seen = outputs @ to_xyz
        reach, bend, lit = self.fit.doubt(monomials[0], terms[0])
        scale = float(np.trace(self.miss)) / len(self.miss)
        fitted = reach / (_PULLED * scale) * self.miss + bend / _PULLED
        own = fitted + lit + self.target.camera_doubt(outputs)
        light = to_xyz.T @ lit @ to_xyz
        return seen, self.miss / weight_of(seen[1]) ** 2 + to_xyz.T @ own @ to_xyz, light

    def light_ratio(self, at: Array) -> float:
        """Brightest light over darkest at points in pixels, (n, 2)."""
        light = -self.frame.terms(at) @ self.fit.fall
        return float(np.exp(np.ptp(light)))


def calibrated(target: Target, seen: Seen, card_linear: Array, card_at: Array) -> Calibrated:
    """Fit a photo to the patches in it, and to bare card (m, 3) at places (m, 2).

    Raises: NoAnswer for a photo whose patches do not agree.
    """
    frame = frame_of(seen.corners)
    used = ~seen.full
    lightest = float(seen.linear[used].mean(axis=1).max())
    weight = weight_of(target.xyz()[used, 1])
    sample = Sample(
        target.monomials(_scaled(seen.linear[used], lightest)),
        frame.terms(seen.at)[used],
        target.outputs()[used],
        weight,
        frame.terms(card_at),
        np.log(_scaled(card_linear, lightest).mean(axis=1)),
    )
    told = left_out(sample, target.prior) @ target.to_xyz()
    wanted = target.xyz()[used]
    missed = (told - wanted) * weight[:, None]
    white = white_xyz()
    de00 = np.full(len(used), np.nan)
    de00[used] = delta_e00(lab_of(told, white), lab_of(wanted, white))
    _refuse_if_odd(de00)
    miss = missed.T @ missed / len(missed) + _PRINT
    trusted = sample.trusted(_PULLED * float(np.trace(miss)) / len(miss))
    fit = joint_fit(trusted, target.prior)
    return Calibrated(target, frame, fit, lightest, miss, de00, _card_miss(trusted, target.prior))


def _card_miss(sample: Sample, prior: Array) -> float:
    missed = [0.0]
    for i in range(len(sample.card_log)):
        kept = np.arange(len(sample.card_log)) != i
        others = replace(sample, card_terms=sample.card_terms[kept], card_log=sample.card_log[kept])
        fit = joint_fit(others, prior)
        even = np.exp(fit.log_bend) * sample.card_log - sample.card_terms @ fit.fall
        missed.append(abs(float(even[i] - np.median(even))))
    return max(missed)


def _scaled(linear: Array, lightest: float) -> Array:
    """Linear color with the lightest patch at 0.9, black a little above nothing."""
    return np.asarray(_LIGHTEST * np.maximum(linear / lightest, 1e-4))


def _refuse_if_odd(de00: Array) -> None:
    middle = float(np.nanmedian(de00))
    if middle > _MOST_LEFT_OUT:
        raise NoAnswer(
            f"the patches contradict one another by dE00 {middle:.0f} (at most "
            f"{_MOST_LEFT_OUT:g}): light of two colors, a shadow across the target, a filter in "
            "the camera, or not this target; take the photo again in the shade of one window, "
            "without flash or filters"
        )
