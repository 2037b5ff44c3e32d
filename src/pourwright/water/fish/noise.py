"""Just-noticeable differences of any number of cones, limited by their own noise."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array


def color_steps(gaps: Array, noises: Array) -> Array:
    """Difference in color, in just-noticeable steps; the last axis holds the cones, two or more.

    `gaps` are differences of the logarithms of catches, `noises` the noise of each class. A gap
    that all cones share is brightness and does not count: what is left is the scatter of the gaps
    about their mean, each weighed by its noise. For two and three cones that is the printed form.
    Source: Vorobyev and Osorio, Proc. R. Soc. B 265 (1998) 351.

    >>> float(color_steps(np.array([0.3, 0.0]), np.array([0.09, 0.12])).round(12))
    2.0
    """
    weights = noises**-2.0
    shared = (weights * gaps).sum(axis=-1) / weights.sum(axis=-1)
    scatter = (weights * (gaps - shared[..., None]) ** 2).sum(axis=-1)
    return np.asarray(np.sqrt(scatter))


def brightness_steps(gap: Array, noise: Array) -> Array:
    """Difference in brightness, in just-noticeable steps, of the one class that sees it.

    Source: Siddiqi, Cronin, Loew, Vorobyev and Summers, J. Exp. Biol. 207 (2004) 2471.
    """
    return np.asarray(np.abs(gap) / noise)


def class_noise(weber: Array, cells: Array, reference: int) -> Array:
    """Noise of each class of cone in bright light, shape of `cells`: fewer cells, more noise.

    `weber` is the noise of the reference class, as a share of its signal; the last axis of `cells`
    counts the cells of each class in one unit of the mosaic.
    Source: Vorobyev and Osorio (1998).
    """
    return np.asarray(weber[..., None] * np.sqrt(cells[..., [reference]] / cells))


def with_photons(noise: Array, photons_one: Array, photons_two: Array) -> Array:
    """Noise in dim light, where photons arrive by chance; `photons` are the two looks' counts.

    A count of n photons scatters by 1/√n of itself; n is the mean of the two looks.
    Source: Vorobyev and Osorio (1998), noise in dim light.
    """
    return np.asarray(np.sqrt(noise**2 + 2 / (photons_one + photons_two)))
