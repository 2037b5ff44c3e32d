"""A slab cooled unevenly: a film on one face, a weaker one on the other, both to one bath.

With x from the strong face (film B1 = h1·L/k) to the weak one (B2), L the whole thickness:
θ = Σ C·X(x/L)·exp(-z²·Fo), X = cos zx + (B1/z)·sin zx, tan z = z·(B1 + B2) / (z² - B1·B2).
Source: Carslaw and Jaeger, Conduction of Heat in Solids, 2nd ed., sec. 3.10.
"""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.physics.conduction import HALVINGS

TERMS = 8
PLACES = 17


def hottest_fourier(left: Array, strong: Array, weak: Array) -> Array:
    """Fo at which the hottest place keeps the share `left` of its excess, 0 < left < 1."""
    root = _roots(strong, weak)
    shapes = _shapes(root, strong)
    weight = _weights(root, strong)
    x_peak = shapes * weight
    slow = root[0] ** 2
    low, high = np.zeros_like(left), np.log(2 / left) / slow + 0.3
    for _ in range(26):
        middle = (low + high) / 2
        fade = np.exp(-(root**2) * middle)
        warm = np.max(np.sum(x_peak * fade, axis=1), axis=0) > left
        low, high = np.where(warm, middle, low), np.where(warm, high, middle)
    return np.asarray((low + high) / 2)


def _roots(strong: Array, weak: Array) -> Array:
    """First roots, one in each (n·π, (n + 1)·π); shape (terms, draws)."""
    n = np.arange(TERMS)[:, None]
    low, high = n * np.pi + 0 * strong, (n + 1) * np.pi + 0 * strong
    sign = (-1.0) ** n
    for _ in range(HALVINGS):
        z = (low + high) / 2
        value = (strong * weak - z**2) * np.sin(z) + z * (strong + weak) * np.cos(z)
        above = value * sign > 0
        low, high = np.where(above, z, low), np.where(above, high, z)
    return (low + high) / 2


def _shapes(root: Array, strong: Array) -> Array:
    """X at places across the slab; shape (places, terms, draws)."""
    x = np.linspace(0, 1, PLACES)[:, None, None]
    return np.asarray(np.cos(root * x) + strong / root * np.sin(root * x))


def _weights(root: Array, strong: Array) -> Array:
    """C = ∫X / ∫X², in closed form."""
    b = strong / root
    sine, cosine = np.sin(root), np.cos(root)
    whole = (sine + b * (1 - cosine)) / root
    twice = np.sin(2 * root) / (4 * root)
    squared = 0.5 + twice + b**2 * (0.5 - twice) + b * sine**2 / root
    return np.asarray(whole / squared)
