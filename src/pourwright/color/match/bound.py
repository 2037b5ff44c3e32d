"""CIEDE2000 from below, as the length of something linear, for colors known within limits.

The formula is the length of (lightness, chroma, hue) over weights that move slowly: each weight
is taken at its worst within the limits, the differences themselves stay linear in L*a*b*.
Symbols follow Sharma, Wu and Dalal, Color Res. Appl. 30 (2005) 21.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.match.span import Picks, Sheaf, Span

# T of the formula never leaves these, nor changes faster with mean hue, per radian.
_T = Span(np.array(1 - 0.93), np.array(1 + 0.93))
_T_SLOPE = 0.17 + 2 * 0.24 + 3 * 0.32 + 4 * 0.20
# Mean hue runs from 0 to 360 in the formula; taking it as a circle moves the blue turn by less.
_TAIL = 1e-4
# Nearer than this share of its chroma to the far side of gray, hue says nothing of use.
_POLAR = 0.05


@dataclass(frozen=True, slots=True)
class Frame:
    """CIEDE2000 is at least the length of turn·(miss in L*a*b*) + off ± loose.

    Shapes (n, 3, 3), (n, 3), (n, 3).
    """

    turn: Array
    off: Array
    loose: Array


@dataclass(frozen=True, slots=True)
class _Chroma:
    """What the target and the colors have in common: chromas and the stretch of a*."""

    stretch: Span
    mean: Span
    weight: Span

    def take(self, rows: Picks) -> _Chroma:
        return _Chroma(*(s.take(rows) for s in (self.stretch, self.mean, self.weight)))


def frame(target: Array, colors: Sheaf, limits: Span) -> Frame:
    """For colors of a sheaf that lie within limits as well, (n, 3)."""
    chroma = _chroma(target, limits)
    turn = np.zeros((len(limits.low), 3, 3))
    turn[:, 0, 0] = 1 / _s_l(limits.plus(target).times(0.5))
    whole = Frame(turn, np.zeros((len(turn), 3)), np.zeros((len(turn), 3)))
    if not target[1:].any():
        # From a gray there is no difference in hue.
        _put_rectangle(whole, chroma, 1 / chroma.weight.high)
        return whole
    place = _placed(target, chroma, colors, limits)
    _put_rectangle(whole, chroma, _weight_of_both(target, chroma, place))
    near = np.hypot(place.p_any.low, place.q_any.sizes().low) + place.p_any.low
    sided = (place.p_any.low > 0) | (place.q_any.sizes().low > 0)
    fits = np.flatnonzero(sided & (near > _POLAR * _size(target, chroma.stretch.middle)))
    if len(fits):
        a = Span(limits.low[:, 1], limits.high[:, 1]).sizes()
        _put_polar(whole, fits, target, chroma.take(fits), place.take(fits), a.take(fits))
    return whole


def _s_l(mean: Span) -> Array:
    off = mean.plus(-50.0).sizes().high[:, 0] ** 2
    return np.asarray(1 + 0.015 * off / np.sqrt(20 + off))


def _chroma(target: Array, limits: Span) -> _Chroma:
    a, b = (Span(limits.low[:, i], limits.high[:, i]).sizes() for i in (1, 2))
    plain = Span(np.hypot(a.low, b.low), np.hypot(a.high, b.high))
    own = np.hypot(target[1], target[2])
    near = plain.plus(own).times(0.5)
    stretch = Span(_stretch(near.high), _stretch(near.low))
    mean = Span(
        (np.hypot(stretch.low * a.low, b.low) + _size(target, stretch.low)) / 2,
        (np.hypot(stretch.high * a.high, b.high) + _size(target, stretch.high)) / 2,
    )
    return _Chroma(stretch, mean, mean.times(0.045).plus(1.0))


def _stretch(chroma: Array) -> Array:
    seventh = chroma**7
    return np.asarray(1 + 0.5 * (1 - np.sqrt(seventh / (seventh + 25.0**7))))


def _size(target: Array, stretch: Array) -> Array:
    return np.asarray(np.hypot(stretch * target[1], target[2]))


def _put_rectangle(whole: Frame, chroma: _Chroma, weight: Array) -> None:
    whole.turn[:, 1, 1] = weight * chroma.stretch.low
    whole.turn[:, 2, 2] = weight


def _weight_of_both(target: Array, chroma: _Chroma, place: _Place) -> Array:
    """One weight for chroma and hue, since hue's is never above chroma's."""
    p, q = place.p_any.high, place.q_any
    apart = np.minimum(abs(np.arctan2(q.low, p)), abs(np.arctan2(q.high, p)))
    apart = np.where((p > 0) & (q.sizes().low == 0), 0, apart) / 2
    own = _own_hue(target, chroma.stretch)
    sides = (
        Span(own.low + apart, own.high + np.pi / 2),
        Span(own.low - np.pi / 2, own.high - apart),
    )
    turn = np.minimum(*(_turn(side, chroma.mean).low for side in sides))
    return np.asarray(np.sqrt(1 + turn / 2) / chroma.weight.high)


def _own_hue(target: Array, stretch: Span) -> Span:
    ends = [np.arctan2(target[2], g * target[1]) for g in (stretch.low, stretch.high)]
    return Span(np.minimum(*ends), np.maximum(*ends))


def _turn(hue: Span, chroma: Span) -> Span:
    """R_T, never above zero."""
    off = abs((np.degrees(hue.middle) - 275 + 180) % 360 - 180)
    half = np.degrees(hue.half)
    theta = Span(_theta(np.minimum(off + half, 180)), _theta(np.maximum(off - half, 0)))
    strength = Span(_strength(chroma.low), _strength(chroma.high))
    return Span(
        -np.sin(2 * theta.high) * strength.high,
        np.minimum(-np.sin(2 * theta.low) * strength.low + _TAIL, 0),
    )


def _theta(off: Array) -> Array:
    return np.asarray(np.radians(30) * np.exp(-((off / 25) ** 2)))


def _strength(chroma: Array) -> Array:
    seventh = chroma**7
    return np.asarray(2 * np.sqrt(seventh / (seventh + 25.0**7)))


@dataclass(frozen=True, slots=True)
class _Place:
    """Where colors lie from gray: out along the target's hue and across it.

    `p` and `q` at the middle stretch of a*, of which they are weighted sums; `p_any` and `q_any`
    at every stretch that occurs.
    """

    out: Array
    across: Array
    p: Span
    q: Span
    p_any: Span
    q_any: Span

    def take(self, rows: Picks) -> _Place:
        spans = (s.take(rows) for s in (self.p, self.q, self.p_any, self.q_any))
        return _Place(self.out[rows], self.across[rows], *spans)


def _placed(target: Array, chroma: _Chroma, colors: Sheaf, limits: Span) -> _Place:
    stretch = chroma.stretch
    g = stretch.middle
    size = _size(target, g)
    out = np.stack([0 * g, g**2 * target[1] / size, target[2] / size], axis=1)
    across = np.stack([0 * g, -g * target[2] / size, g * target[1] / size], axis=1)
    p, q = (_within(row, colors, limits) for row in (out, across))
    # However the stretch changes, p moves by at most three times its share of the chroma.
    farthest = np.hypot(p.sizes().high, q.sizes().high) * stretch.high / stretch.low
    swing = 3 * farthest * stretch.half / stretch.low
    return _Place(
        out, across, p, q, Span(p.low - swing, p.high + swing), q.times(_shares(target, stretch))
    )


def _shares(target: Array, stretch: Span) -> Span:
    """What lies across at any stretch over the same at the middle one."""
    g = stretch.middle
    ends = (s / _size(target, s) for s in (stretch.low, stretch.high))
    return Span(*ends).times(_size(target, g) / g)


def _within(row: Array, colors: Sheaf, limits: Span) -> Span:
    middle = (row * limits.middle).sum(axis=1)
    wide = (abs(row) * limits.half).sum(axis=1)
    return colors.along(row).meet(Span(middle - wide, middle + wide))


def _put_polar(
    whole: Frame, fits: Picks, target: Array, chroma: _Chroma, place: _Place, a: Span
) -> None:
    """Chroma and hue apart, for colors that do not surround gray or lie beyond it."""
    weight = chroma.weight
    hue = _hues(target, chroma.stretch, place)
    hue_weight = _hue_weight(target, chroma, place, hue)
    turn = _turn(hue, chroma.mean)
    uneven = np.maximum(weight.high / weight.low, hue_weight.high / hue_weight.low) ** 2 - 1
    r = turn.middle
    kept = 1 - (turn.half / 2 + turn.low**2 / 16 * uneven) / (1 - abs(r) / 2)
    kept = np.sqrt(np.maximum(kept, 0))
    extra = _extra(target, chroma.stretch, place, a)
    c_row = place.out / weight.high[:, None]
    h_row = place.across / hue_weight.high[:, None]
    whole.turn[fits, 1] = kept[:, None] * (c_row + (r / 2)[:, None] * h_row)
    whole.turn[fits, 2] = (kept * np.sqrt(1 - r**2 / 4))[:, None] * h_row
    whole.off[fits, 1] = kept * extra.middle / weight.high
    whole.loose[fits, 1] = kept * extra.half / weight.high


def _hue_weight(target: Array, chroma: _Chroma, place: _Place, hue: Span) -> Span:
    """What q is divided by to give the difference in hue over its weight."""
    p, q = place.p_any, place.q_any.sizes()
    size = Span(*(_size(target, g) for g in (chroma.stretch.low, chroma.stretch.high)))
    bent = Span(
        np.sqrt(2 * size.low / (np.hypot(p.high, q.high) + p.high)),
        np.sqrt(2 * size.high / (np.hypot(p.low, q.low) + p.low)),
    ).times(_shares(target, chroma.stretch))
    s_h = _s_h(hue, chroma.mean)
    return Span(s_h.low / bent.high, s_h.high / bent.low)


def _extra(target: Array, stretch: Span, place: _Place, a: Span) -> Span:
    """What the difference in chroma is beyond its share along the target's hue."""
    p, q = place.p, place.q.sizes()
    beyond = Span(np.hypot(p.high, q.low) - p.high, np.hypot(p.low, q.high) - p.low)
    near, far = place.p_any.sizes(), place.q_any.sizes()
    least, most = np.hypot(near.low, far.low), np.hypot(near.high, far.high)
    theirs = Span(stretch.low * a.low**2 / most, stretch.high * a.high**2 / least)
    ends = [g * target[1] ** 2 / _size(target, g) for g in (stretch.low, stretch.high)]
    own = Span(np.minimum(*ends), np.maximum(*ends))
    swing = stretch.half * theirs.less(own).sizes().high
    return Span(beyond.low - swing, beyond.high + swing)


def _hues(target: Array, stretch: Span, place: _Place) -> Span:
    """Mean hue, radians."""
    p, q = place.p_any, place.q_any
    corners = [np.arctan2(y, x) for x in (p.low, p.high) for y in (q.low, q.high)]
    turned = Span(np.minimum.reduce(corners), np.maximum.reduce(corners))
    return _own_hue(target, stretch).plus(turned.times(0.5))


def _s_h(hue: Span, chroma: Span) -> Span:
    h, wide = hue.middle, _T_SLOPE * hue.half
    t = (
        1
        - 0.17 * np.cos(h - np.radians(30))
        + 0.24 * np.cos(2 * h)
        + 0.32 * np.cos(3 * h + np.radians(6))
        - 0.20 * np.cos(4 * h - np.radians(63))
    )
    return Span(t - wide, t + wide).meet(_T).times(chroma).times(0.015).plus(1.0)
