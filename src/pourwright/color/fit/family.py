"""Shapes that absorption and scattering of real colorants take, drawn from generated families.

Edges (yellow to red and brown), bands (dyes, magenta, violet), double bands (blue, green), blacks
and whites, with levels over two decades: an estimate of what stands on shelves, wide on purpose.
It is what lets three numbers of a reading speak for 31 bands.
"""

from __future__ import annotations

import functools
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.spectrum.light import WAVELENGTHS_NM

_SEED = 20_251
SHARES = {"edge": 0.30, "band": 0.30, "double": 0.18, "black": 0.07, "white": 0.05, "brown": 0.10}
_X = WAVELENGTHS_NM[None, :]


@dataclass(frozen=True, slots=True)
class Family:
    """Natural logarithms of absorption and reduced scattering, per mm for 1 g in 100 g: (n, 31)."""

    absorb: Array
    scatter: Array


@functools.cache
def library(count: int) -> Family:
    """That many colorants, the same at every call."""
    random = np.random.Generator(np.random.PCG64(_SEED))
    counts = {name: max(1, round(share * count)) for name, share in SHARES.items()}
    shapes = [_SHAPES[name](random, n) for name, n in counts.items()]
    absorb = np.concatenate([np.log(s[0]) for s in shapes])
    scatter = np.concatenate([s[1] for s in shapes])
    absorb += _wiggle(random, len(absorb), 0.08)
    for values in (absorb, scatter):
        values.setflags(write=False)
    return Family(absorb, scatter)


def _level(random: np.random.Generator, n: int, low: float, high: float) -> Array:
    return np.asarray(np.exp(random.uniform(np.log(low), np.log(high), (n, 1))))


def _flat(random: np.random.Generator, n: int, low: float, high: float) -> Array:
    return random.uniform(low, high, (n, 1))


def _bell(center: Array, left: Array, right: Array) -> Array:
    """A band with unlike flanks."""
    width = np.where(center > _X, left, right)
    return np.exp(-0.5 * ((_X - center) / width) ** 2)


def _edge(random: np.random.Generator, n: int) -> tuple[Array, Array]:
    """Absorbs below an edge: yellow, orange, red."""
    edge, width = _flat(random, n, 470, 615), _level(random, n, 5, 20)
    below = 1 / (1 + np.exp((_X - edge) / width))
    sag = np.exp(-_flat(random, n, 0, 2.0) * np.maximum(edge - _X, 0) / 150)
    hump = 1 + _flat(random, n, 0, 1.2) * _bell(
        edge - _flat(random, n, 20, 110), _flat(random, n, 20, 60), _flat(random, n, 15, 40)
    )
    floor = _level(random, n, 1e-4, 2e-2)
    return (below * sag * hump + floor) * _level(random, n, 0.2, 20), _opaque(random, n)


def _band(random: np.random.Generator, n: int) -> tuple[Array, Array]:
    """One to three bands anywhere: dyes, magenta, violet."""
    center = _flat(random, n, 400, 690)
    shape = _bell(center, _flat(random, n, 18, 60), _flat(random, n, 12, 45))
    for most in (0.9, 0.7):
        near = center + random.choice([-1, 1], (n, 1)) * _flat(random, n, 25, 70)
        shape = shape + _flat(random, n, 0, most) * _bell(
            near, _flat(random, n, 15, 45), _flat(random, n, 12, 40)
        )
    far = _flat(random, n, 380, 460)
    shape = shape + _flat(random, n, 0, 0.5) * _bell(far, np.array(60.0), _flat(random, n, 20, 50))
    floor = _level(random, n, 2e-4, 4e-2)
    return (shape + floor) * _level(random, n, 0.2, 20), _mixed(random, n)


def _double(random: np.random.Generator, n: int) -> tuple[Array, Array]:
    """Two bands in the red, and for greens one in the violet: blue, cyan, green."""
    center = _flat(random, n, 590, 690)
    shape = _bell(center, _flat(random, n, 20, 45), _flat(random, n, 15, 40))
    shape = shape + _flat(random, n, 0.3, 1.1) * _bell(
        center - _flat(random, n, 35, 80), _flat(random, n, 20, 50), _flat(random, n, 15, 35)
    )
    violet = np.where(random.random((n, 1)) < 0.5, _level(random, n, 0.2, 1.2), 0.0)
    shape = shape + violet * _bell(
        _flat(random, n, 390, 450), np.array(60.0), _flat(random, n, 15, 40)
    )
    floor = _level(random, n, 3e-4, 3e-2)
    return (shape + floor) * _level(random, n, 0.2, 20), _mixed(random, n)


def _black(random: np.random.Generator, n: int) -> tuple[Array, Array]:
    """Absorbs everything, the blue a little more."""
    slope = _flat(random, n, -0.3, 1.4)
    return _level(random, n, 0.5, 40) * (_X / 550) ** -slope, _mixed(random, n)


def _white(random: np.random.Generator, n: int) -> tuple[Array, Array]:
    """Scatters; absorbs only in the violet."""
    rise = 1 / (1 + np.exp((_X - _flat(random, n, 375, 415)) / _flat(random, n, 4, 10)))
    floor = _level(random, n, 1e-4, 1e-2)
    level = np.log(_level(random, n, 0.5, 15)) - _flat(random, n, 0, 1.8) * np.log(_X / 550)
    return rise * _level(random, n, 0.05, 1) + floor, level


def _brown(random: np.random.Generator, n: int) -> tuple[Array, Array]:
    """A slow edge: earths and browns."""
    edge, width = _flat(random, n, 440, 620), _flat(random, n, 20, 60)
    shape = 1 / (1 + np.exp((_X - edge) / width)) + _level(random, n, 3e-3, 0.3)
    return shape * _level(random, n, 0.2, 20), _opaque(random, n)


def _opaque(random: np.random.Generator, n: int) -> Array:
    level = np.log(_level(random, n, 0.003, 6))
    return np.asarray(level - _flat(random, n, -1.5, 2.5) * np.log(_X / 550))


def _mixed(random: np.random.Generator, n: int) -> Array:
    level = np.log(_level(random, n, 0.0005, 3))
    return np.asarray(level - _flat(random, n, -1.0, 3.0) * np.log(_X / 550))


def _wiggle(random: np.random.Generator, n: int, size: float) -> Array:
    """What no formula has: smooth over 25 nm."""
    apart = (WAVELENGTHS_NM[:, None] - WAVELENGTHS_NM[None, :]) / 25
    root = np.linalg.cholesky(np.exp(-0.5 * apart**2) + 1e-6 * np.eye(len(WAVELENGTHS_NM)))
    return np.asarray(size * random.standard_normal((n, len(root))) @ root.T)


_SHAPES = {
    "edge": _edge, "band": _band, "double": _double,
    "black": _black, "white": _white, "brown": _brown,
}  # fmt: skip
