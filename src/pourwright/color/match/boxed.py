"""What color every recipe of a box can have: linear in its steps, with what that leaves out.

A color differs from that of the middle recipe by slopes of chords times steps: of reflectance
along absorption and scattering, of the cube roots of L*a*b* along X, Y and Z. Each slope is known
within a range that shrinks with the box.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.color import slab
from pourwright.color.match.counter import Counter
from pourwright.color.match.envelope import Envelope, Range
from pourwright.color.match.frontier import Boxes
from pourwright.color.match.span import Sheaf, Span
from pourwright.color.octave import Single

# 32-bit look-ups and sums are off by less, as a share of white.
_ROUNDING = 4e-6
_KNEE = 6 / 29
_PER_F = np.array([116.0, 500.0, 200.0])


class Colors:
    """Colors of boxes of recipes in daylight, tightest near a target.

    `most` steps of each bottle, (bottles,), are the most that will be asked for.
    """

    def __init__(self, counter: Counter, most: Array, thick_mm: float, target: Array) -> None:
        thick = np.float32(thick_mm)
        absorb, scatter = (
            np.pad(steps * thick, ((0, 1), (0, 0)))
            for steps in (counter.step_absorb, counter.step_scatter)
        )
        self._steps = absorb, scatter
        self._base = counter.base_absorb * thick, counter.base_scatter * thick
        self._tables = counter.viewer.tables()
        filled = np.append(most, 0)
        absorbs, scatters = (
            (float(b.min()), float((b + filled @ s).max()))
            for b, s in zip(self._base, self._steps, strict=True)
        )
        self._envelope = Envelope(self._tables, absorbs, scatters)
        weights = counter.viewer.weights[:3] / counter.viewer.white[:3, None]
        self._weights = np.ascontiguousarray(weights.T)
        self._ratio = _ratio(target)
        x, y, z = weights
        together = np.stack([y, self._ratio[0] * x - y, y - self._ratio[2] * z], axis=1)
        self._moves = _columns(self._weights, absorb, scatter)
        self._spreads = _columns(abs(self._weights), absorb, scatter)
        self._pairs = _columns(abs(together), absorb, scatter)

    def of(self, boxes: Boxes) -> tuple[Sheaf, Span]:
        """As a sheaf about the middle of each box, and limits that it keeps as well, (n, 3)."""
        reach = (boxes.high - boxes.low) / 2
        middle = self._dense(boxes, (boxes.low + boxes.high) / 2)
        half = self._dense(boxes, reach)
        absorb, scatter = (middle @ s + b for s, b in zip(self._steps, self._base, strict=True))
        wide_a, wide_s = (half @ s for s in self._steps)
        ranged = self._envelope.over(
            (absorb - wide_a, absorb, absorb + wide_a), (scatter - wide_s, scatter + wide_s)
        )
        share = self._share(self._seen(absorb, scatter), ranged, boxes, reach)
        pairs = _of_bottles(ranged.halves @ self._pairs, boxes)
        return _in_lab(share, pairs, self._ratio, reach)

    def _dense(self, boxes: Boxes, steps: Array) -> Single:
        found = np.zeros((len(steps), len(self._steps[0])), np.float32)
        np.put_along_axis(found, boxes.bottles, steps.astype(np.float32), axis=1)
        return found

    def _seen(self, absorb: Single, scatter: Single) -> Single:
        if all(t is self._tables[0] for t in self._tables):
            here = slab.places_of(absorb.astype(float), scatter.astype(float))
            return here.of(self._tables[0]).reshape(absorb.shape)
        bands = zip(absorb.T.astype(float), scatter.T.astype(float), self._tables, strict=True)
        return np.stack([slab.places_of(a, s).of(t) for a, s, t in bands], axis=1)

    def _share(self, seen: Single, ranged: Range, boxes: Boxes, reach: Array) -> _Share:
        at = (seen @ self._weights).astype(float)
        slopes = _of_bottles(ranged.middles @ self._moves, boxes)
        loose = _of_bottles(ranged.halves @ self._spreads, boxes)
        swing = ((abs(slopes) + loose) * reach[:, None, :]).sum(axis=2)
        up, down = np.maximum(self._weights, 0), np.minimum(self._weights, 0)
        low, high = ranged.low.astype(float), ranged.high.astype(float)
        whole = Span(low @ up + high @ down, high @ up + low @ down)
        span = Span(at - swing, at + swing).meet(whole)
        return _Share(at, Span(span.low - _ROUNDING, span.high + _ROUNDING), slopes, loose)


@dataclass(frozen=True, slots=True)
class _Share:
    """X, Y and Z over white's, (n, 3); how they move with each bottle, (n, 3, k)."""

    at: Array
    span: Span
    slopes: Array
    loose: Array


def _columns(weights: Single, absorb: Single, scatter: Single) -> Single:
    """What a slope in a band does to each weighted sum for each bottle: (2 bands, 3 bottles)."""
    parts = [weights[:, :, None] * steps.T[:, None, :] for steps in (absorb, scatter)]
    return np.concatenate([p.reshape(len(p), -1) for p in parts]).astype(np.float32)


def _of_bottles(every: Single, boxes: Boxes) -> Array:
    shaped = every.reshape(len(every), 3, -1)
    return np.take_along_axis(shaped, boxes.bottles[:, None, :], axis=2).astype(float)


def _in_lab(share: _Share, pairs: Array, ratio: Array, reach: Array) -> tuple[Sheaf, Span]:
    """`pairs` are the spreads of Y, of X less Y and of Y less Z where they go by `ratio`."""
    f = _f(share.at)
    steep = Span(*(_chord(share.at, f, end) for end in (share.span.high, share.span.low)))
    m = steep.middle[:, :, None]
    d = m * share.slopes
    bend = steep.half[:, :, None] * (abs(share.slopes) + share.loose)
    uneven = abs(m - ratio[:, None] * m[:, 1:2]) * share.loose
    spread = m[:, 1:2] * pairs
    slopes = np.stack([d[:, 1], d[:, 0] - d[:, 1], d[:, 1] - d[:, 2]], axis=1)
    loose = np.stack(
        [
            spread[:, 0] + bend[:, 1],
            spread[:, 1] + uneven[:, 0] + bend[:, 0] + bend[:, 1],
            spread[:, 2] + uneven[:, 2] + bend[:, 1] + bend[:, 2],
        ],
        axis=1,
    )
    rough = steep.high * _ROUNDING
    rough = np.stack([rough[:, 1], rough[:, 0] + rough[:, 1], rough[:, 1] + rough[:, 2]], axis=1)
    left = (loose * reach[:, None, :]).sum(axis=2) + rough
    sheaf = Sheaf(_lab(*f.T), slopes * _PER_F[:, None], reach, left * _PER_F)
    return sheaf, _limits(share.span).meet(sheaf.span())


def _limits(share: Span) -> Span:
    (x, y, z), (big_x, big_y, big_z) = _f(share.low).T, _f(share.high).T
    low = np.stack([116 * y - 16, 500 * (x - big_y), 200 * (y - big_z)], axis=1)
    high = np.stack([116 * big_y - 16, 500 * (big_x - y), 200 * (big_y - z)], axis=1)
    return Span(low, high)


def _ratio(target: Array) -> Array:
    """Slopes of the cube roots of X, Y and Z at a color, over that of Y."""
    y = (target[0] + 16) / 116
    f = np.array([y + target[1] / 500, y, y - target[2] / 200])
    rise = _slope(np.where(f > _KNEE, f**3, 0))
    return np.asarray(rise / rise[1])


def _f(share: Array) -> Array:
    """CIE 15:2018, eqs. 8.3 to 8.11."""
    return np.where(share > _KNEE**3, np.cbrt(share), share / (3 * _KNEE**2) + 4 / 29)


def _slope(share: Array) -> Array:
    return np.asarray(np.maximum(share, _KNEE**3) ** (-2 / 3) / 3)


def _chord(share: Array, f: Array, end: Array) -> Array:
    """Slope of the chord to an end; those to all between lie between those of both ends."""
    apart = end - share
    # Here a difference says less than the slope at the end, which is beyond the chord's.
    near = abs(apart) < 1e-4 * abs(share) + 1e-9
    return np.where(near, _slope(end), (_f(end) - f) / np.where(near, 1.0, apart))


def _lab(x: Array, y: Array, z: Array) -> Array:
    return np.stack([116 * y - 16, 500 * (x - y), 200 * (y - z)], axis=1)
