"""What is believed of bottles and plastic, as a fit can take it up."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.colorant import Colorant
from pourwright.color.constants import Constants
from pourwright.color.fit import prior
from pourwright.color.fit.prior import Normal, loose, normal
from pourwright.color.kinds.measured import Measured
from pourwright.color.match.bottle import per_gram
from pourwright.color.plastic import RawPlastic
from pourwright.spectrum.light import BANDS

_FAINTEST = 1e-7
# How much wider than between relatives a color entered leaves its spectrum; estimate.
_ENTERED = 2.5


def of_colorant(colorant: Colorant) -> Normal:
    """A measured one by its spread; an entered one by its strength, hiding and unknown shape."""
    if isinstance(colorant, Measured):
        return of_constants(colorant.constants)
    mean = np.concatenate([_log(v) for v in per_gram(colorant)])
    level = np.zeros((2 * BANDS, 2 * BANDS))
    level[:BANDS, :BANDS] = 0.55**2
    level[BANDS:, BANDS:] = 0.9**2
    return normal(mean, level + _ENTERED**2 * loose())


def of_plastic(plastic: RawPlastic) -> Normal:
    """Plastic by its own pucks, or as plastic is."""
    return prior.plastic() if plastic.constants is None else of_constants(plastic.constants)


def of_constants(constants: Constants) -> Normal:
    """The normal that constants with their spread stand for, never quite certain."""
    mean = np.concatenate([_log(constants.absorb_mm), _log(constants.scatter_mm)])
    ways = [np.concatenate([way.absorb, way.scatter]) for way in constants.spread]
    off = np.array(ways).reshape(-1, 2 * BANDS)
    return normal(mean, off.T @ off + 0.05**2 * loose() / 0.22**2)


def _log(values: Array | tuple[float, ...]) -> Array:
    return np.asarray(np.log(np.maximum(np.asarray(values, dtype=float), _FAINTEST)))
