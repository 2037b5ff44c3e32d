"""Shelves of invented colorants, by seed."""

from __future__ import annotations

import numpy as np

from speed.truth import family
from speed.truth.colorant import Base, Shelf, TrueColorant
from speed.truth.family import Family

DROP_G = 0.035
"""A drop of 1/20 mL weighs some 0.03 to 0.06 g (common practice, no source)."""


def random_shelf(seed: int) -> Shelf:
    """White, black and four to six chromatic colorants over the hues, in a plastic of its own.

    One of the yellows, of the reds and of the blues is always there; at least one colorant is a
    clear dye and one an opaque pigment. One to thirty drops in 100 g run from pale to deep in
    5 mm. The index of 1.50 to 1.53 spans plasticized PVC (handbook range, from memory).
    """
    rng = np.random.default_rng(seed)
    hues = _hues(rng)
    opaque = rng.permutation(len(hues)) < rng.integers(1, len(hues))
    chromatic = [
        _chromatic(hue, clear=not pigment, rng=rng)
        for hue, pigment in zip(hues, opaque, strict=True)
    ]
    colorants = (_white(rng), _black(rng), *chromatic)
    drop_g = DROP_G * rng.lognormal(0, 0.1, len(colorants))
    return Shelf(colorants, random_base(rng), float(rng.uniform(1.50, 1.53)), drop_g)


def random_base(rng: np.random.Generator) -> Base:
    """A lot of plastic: 1 to 4 % lost in 5 mm at 400 nm, a haze that softens what lies behind."""
    wave = family.FINE_NM
    yellow = rng.uniform(0.002, 0.008) * np.exp(-(wave - 400) / rng.uniform(30, 60))
    haze = rng.uniform(0.02, 0.15) * (550 / wave) ** rng.uniform(0.8, 2.0)
    absorbed = yellow + rng.uniform(1e-4, 5e-4)
    return Base(family.on_bands(absorbed), family.on_bands(haze), float(rng.uniform(0.8, 0.9)))


def _hues(rng: np.random.Generator) -> list[Family]:
    sure = [rng.choice(len(group)) for group in (family.YELLOW, family.RED, family.BLUE)]
    hues = [family.YELLOW[sure[0]], family.RED[sure[1]], family.BLUE[sure[2]]]
    others = [f for f in family.YELLOW + family.RED + family.BLUE + family.GREEN if f not in hues]
    more = rng.choice(len(others), size=rng.integers(1, 4), replace=False)
    return hues + [others[i] for i in more]


def _chromatic(hue: Family, *, clear: bool, rng: np.random.Generator) -> TrueColorant:
    absorbed = family.absorption(hue, rng)
    peak = np.exp(rng.uniform(np.log(0.5), np.log(2.5)))
    if clear:
        reduced, g, swing = rng.uniform(0.002, 0.03), rng.uniform(0.7, 0.9), 0.0
    else:
        reduced = np.exp(rng.uniform(np.log(0.15), np.log(1.5)))
        g, swing = rng.uniform(0.4, 0.8), rng.uniform(0.1, 0.4)
    scattered = family.scattering(absorbed, rng.uniform(0.5, 2.2), swing) * reduced / (1 - g)
    name = f"{'clear' if clear else 'opaque'} {hue.name}"
    bands = family.on_bands(peak * absorbed), family.on_bands(scattered)
    return TrueColorant(name, hue.name, *bands, float(g))


def _white(rng: np.random.Generator) -> TrueColorant:
    absorbed = rng.uniform(0.5, 1.5) * family.white_absorption(rng)
    g = rng.uniform(0.45, 0.65)
    scattered = family.scattering(absorbed, rng.uniform(0.6, 1.2), 0.0)
    strength = rng.uniform(2.5, 6) / (1 - g)
    bands = family.on_bands(absorbed), family.on_bands(strength * scattered)
    return TrueColorant("white", "white", *bands, float(g))


def _black(rng: np.random.Generator) -> TrueColorant:
    absorbed = rng.uniform(0.6, 1.8) * family.black_absorption(rng)
    g = rng.uniform(0.3, 0.6)
    scattered = family.scattering(absorbed, rng.uniform(0.8, 2.0), 0.0)
    bands = family.on_bands(absorbed), family.on_bands(rng.uniform(0.05, 0.3) * scattered)
    return TrueColorant("black", "black", *bands, float(g))
