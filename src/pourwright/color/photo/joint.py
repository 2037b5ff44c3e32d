"""One fit for a camera's colors, its curve, and the fall-off of light.

A color is `exp(fall · terms)⁻¹ Σ coefficient × monomial^bend`: monomials of the camera's linear
red, green and blue that scale with the light; a power for the curve laid over the picture; a
plane and a bowl for the light. Fitted by Gauss-Newton steps under a prior, so that what the
patches cannot tell stays doubtful.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.photo.lighting import FALL_PRIOR, TERMS

CHANNELS = 3
# Curves that cameras lay over a picture, as a power of linear light, in logs; estimate.
_BEND_SPREAD = 0.15
# How evenly a bare card sends light back, in logs; estimate.
_CARD_SPREAD = 0.01
# Longest step of the bend, so that a picture of something else cannot run away.
_MOST_BENT = 0.3
_STEPS = 6
_SHARED_PRIOR = np.append(FALL_PRIOR, _BEND_SPREAD**-2)


@dataclass(frozen=True, slots=True)
class Sample:
    """What is known: patches, and bare card.

    Monomials (n, 3, k), fall-off terms (n, 5), colors (n, 3) and weights (n,): one over how far
    each is likely missed by. Card: terms (m, 5) and the logarithm of what it sends back (m,).
    """

    monomials: Array
    terms: Array
    known: Array
    weight: Array
    card_terms: Array
    card_log: Array

    def trusted(self, variance: float) -> Sample:
        """The same with patches missed by that many times the variance expected."""
        return replace(self, weight=self.weight / math.sqrt(variance))

    def without(self, left_out: int) -> Sample:
        """All but one patch."""
        kept = np.arange(len(self.known)) != left_out
        return Sample(
            self.monomials[kept], self.terms[kept], self.known[kept], self.weight[kept],
            self.card_terms, self.card_log,
        )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Fit:
    """Coefficients (3, k), fall-off (5,), logarithm of the bend, and the covariance of all."""

    coefficients: Array
    fall: Array
    log_bend: float
    covariance: Array

    def colors(self, monomials: Array, terms: Array) -> Array:
        """Colors of places, (n, 3)."""
        return np.asarray(np.einsum("nck,ck->nc", self._lit(monomials, terms), self.coefficients))

    def slopes(self, monomials: Array, terms: Array) -> Array:
        """Change of colors with all that was fitted, (n, 3, 3 k + 6)."""
        lit = self._lit(monomials, terms)
        size = lit.shape[2]
        found = np.zeros((*lit.shape[:2], CHANNELS * size + TERMS + 1))
        for channel in range(CHANNELS):
            found[:, channel, channel * size : (channel + 1) * size] = lit[:, channel]
        colors = np.einsum("nck,ck->nc", lit, self.coefficients)
        found[..., -TERMS - 1 : -1] = -colors[..., None] * terms[:, None]
        bent = lit * math.exp(self.log_bend) * np.log(monomials)
        found[..., -1] = np.einsum("nck,ck->nc", bent, self.coefficients)
        return found

    def doubt(self, monomials: Array, terms: Array) -> tuple[float, Array, Array]:
        """How one place's color is doubtful; monomials (3, k), terms (5,).

        The variance of its coefficients' sum in units of a patch's, and covariances (3, 3) from
        the bend and from the fall-off.
        """
        slope = self.slopes(monomials[None], terms[None])[0]
        size = monomials.shape[1]
        blocks = [slice(c * size, (c + 1) * size) for c in range(CHANNELS)]
        reach = [slope[c, b] @ self.covariance[b, b] @ slope[c, b] for c, b in enumerate(blocks)]
        fall = slope[:, -TERMS - 1 : -1]
        return (
            float(np.mean(reach)),
            self.covariance[-1, -1] * np.outer(slope[:, -1], slope[:, -1]),
            np.asarray(fall @ self.covariance[-TERMS - 1 : -1, -TERMS - 1 : -1] @ fall.T),
        )

    def _lit(self, monomials: Array, terms: Array) -> Array:
        return np.asarray(
            np.exp(-terms @ self.fall)[:, None, None] * monomials ** math.exp(self.log_bend)
        )


def joint_fit(sample: Sample, prior: Array) -> Fit:
    """The most likely fit; `prior` (k,) is the precision of a coefficient."""
    fit = _first(sample, prior)
    for _ in range(_STEPS):
        fit = _better(sample, prior, fit)
    return fit


def left_out(sample: Sample, prior: Array) -> Array:
    """Color of each patch as told by all the others, (n, 3)."""
    fits = [joint_fit(sample.without(i), prior) for i in range(len(sample.known))]
    return np.array(
        [f.colors(sample.monomials[[i]], sample.terms[[i]])[0] for i, f in enumerate(fits)]
    )


def _first(sample: Sample, prior: Array) -> Fit:
    """Coefficients under even light and no bend."""
    weighed = sample.monomials * sample.weight[:, None, None]
    known = sample.known * sample.weight[:, None]
    found = [
        np.linalg.solve(
            weighed[:, c].T @ weighed[:, c] + np.diag(prior), weighed[:, c].T @ known[:, c]
        )
        for c in range(CHANNELS)
    ]
    return Fit(np.array(found), np.zeros(TERMS), 0.0, np.zeros((1, 1)))


def _better(sample: Sample, prior: Array, fit: Fit) -> Fit:
    """One Gauss-Newton step."""
    now = np.concatenate([fit.coefficients.ravel(), fit.fall, [fit.log_bend]])
    slopes = fit.slopes(sample.monomials, sample.terms)
    missed = sample.known - fit.colors(sample.monomials, sample.terms)
    slope = (sample.weight[:, None, None] * slopes).reshape(-1, len(now))
    pull = (sample.weight[:, None] * missed).reshape(-1)
    card_slope, card_missed = _card(sample, fit)
    precision = np.concatenate([np.tile(prior, CHANNELS), _SHARED_PRIOR])
    curve = slope.T @ slope + np.diag(precision)
    curve[-TERMS - 1 :, -TERMS - 1 :] += card_slope.T @ card_slope
    step = slope.T @ pull - precision * now
    step[-TERMS - 1 :] += card_slope.T @ card_missed
    change = np.linalg.solve(curve, step)
    change[-1] = np.clip(change[-1], -_MOST_BENT, _MOST_BENT)
    found = now + change
    return Fit(
        found[: -TERMS - 1].reshape(fit.coefficients.shape),
        found[-TERMS - 1 : -1],
        float(found[-1]),
        np.asarray(np.linalg.inv(curve), dtype=np.float64),
    )


def _card(sample: Sample, fit: Fit) -> tuple[Array, Array]:
    """Slopes (m, 6) and misses (m,) of the card, its own unknown whiteness left out."""
    if not len(sample.card_log):
        return np.zeros((0, TERMS + 1)), np.zeros(0)
    terms = sample.card_terms - sample.card_terms.mean(axis=0)
    seen = math.exp(fit.log_bend) * (sample.card_log - sample.card_log.mean())
    slope = np.concatenate([terms, -seen[:, None]], axis=1) / _CARD_SPREAD
    return slope, (seen - terms @ fit.fall) / _CARD_SPREAD
