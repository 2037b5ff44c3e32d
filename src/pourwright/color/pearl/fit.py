"""A pearl powder's film and quality from pucks that hold it alone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Z90, Array
from pourwright.color import slab
from pourwright.color.film.pile import pile_scatter, plates_per_mm
from pourwright.color.film.plate import mirrored
from pourwright.color.film.powder import Powder
from pourwright.color.fit.forward import all_readings, as_read, deviations
from pourwright.color.fit.reading import Puck, Reading
from pourwright.matter.mica import FILM_BY_COLOR, FILM_BY_FIGURE, QUALITY
from pourwright.matter.property import Property
from pourwright.spectrum.light import BANDS

# What clear flakes, all alike, miss of a real powder, in Lab units and in reflectance; estimates.
_MODEL_LAB, _MODEL_SHARE = 1.5, 0.015
# The shared gain of a reading moves L* of a middling color by this many times itself; estimate.
_LAB_OF_GAIN = 30.0
_FILMS, _QUALITIES = np.linspace(-2.5, 2.5, 21), np.linspace(-2, 2, 3)
_NUDGE = np.full(2, 1e-3)


@dataclass(frozen=True, slots=True)
class Fitted:
    """Film and quality with what they leave open, and each reading as the flakes would have it."""

    film_nm: Band
    quality: Band
    expected: tuple[Array, ...]


def fit_film(powder: Powder, pucks: Sequence[Puck], plastic: tuple[Array, Array]) -> Fitted:
    """The likeliest film and quality; absorption and scattering of the plastic per mm, (31,).

    Both are logarithms, with what the grade and powders at large say as the belief to start from.
    Their doubt is Laplace's, widened where the readings fit worse than they should.
    """
    # Loaded at the first fit, not at every start.
    from scipy.optimize import least_squares  # noqa: PLC0415

    trial = _Trial(powder, pucks, plastic)
    starts = [np.array([f, q]) for f in _FILMS for q in _QUALITIES]
    start = min(starts, key=lambda z: float((trial.misfits(z) ** 2).sum()))
    found = least_squares(trial.misfits, start, diff_step=_NUDGE)
    slopes = np.asarray(found.jac)
    covariance = np.linalg.inv(slopes.T @ slopes)
    strain = max(1.0, 2 * found.cost / max(len(found.fun) - 2, 1))
    open_film, open_quality = np.sqrt(strain * np.diag(covariance)) * trial.scale
    film, quality = trial.at(found.x)
    told = np.hypot(open_quality, _measured_open(pucks))
    return Fitted(
        _spread(film, float(open_film)), _spread(quality, float(told)), trial.expected(found.x)
    )


def _deviation(of: Property) -> float:
    """One deviation of a property's logarithm."""
    return float(np.log(of.band.high / of.band.low) / (2 * Z90))


def _measured_open(pucks: Sequence[Puck]) -> float:
    """What doses and thicknesses leave open of the quality: one deviation of its logarithm."""
    each = [np.hypot(p.thick_doubt, p.doses[0][2]) for p in pucks]
    return float(np.sqrt(np.mean(np.square(each)) / len(each)))


def _spread(value: float, open_log: float) -> Band:
    off = float(np.exp(Z90 * open_log))
    return Band(value / off, value, value * off)


class _Trial:
    """Readings against any film and quality, given in deviations from what is believed."""

    def __init__(self, powder: Powder, pucks: Sequence[Puck], plastic: tuple[Array, Array]) -> None:
        self.powder, self.plastic = powder, plastic
        self.readings = all_readings(pucks)
        told = FILM_BY_COLOR if powder.film_nm is None else FILM_BY_FIGURE
        self.scale = np.array([_deviation(told), _deviation(QUALITY)])
        self.middle = np.array([powder.film(), QUALITY.typical])

    def at(self, scores: Array) -> tuple[float, float]:
        film, quality = self.middle * np.exp(scores * self.scale)
        return float(film), float(quality)

    def expected(self, scores: Array) -> tuple[Array, ...]:
        film, quality = self.at(scores)
        plate = self.powder.plate()
        straight = mirrored(plate, np.array([film]), np.zeros(1))[0]
        gram = pile_scatter(quality * plates_per_mm(np.ones(1), plate.thick_nm(film)), straight)
        return tuple(self._read(p, r, gram[0]) for p, r in self.readings)

    def misfits(self, scores: Array) -> Array:
        off = [
            (said - reading.values) / _scale(reading)
            for said, (_, reading) in zip(self.expected(scores), self.readings, strict=True)
        ]
        return np.concatenate([*off, scores])

    def _read(self, puck: Puck, reading: Reading, gram: Array) -> Array:
        absorb, scatter = self.plastic
        grams = sum(g for _, g, _ in puck.doses)
        shown = slab.reflectance(
            absorb * puck.thick_mm,
            (scatter + grams * gram) * puck.thick_mm,
            reading.ground,
            reading.placing,
        )
        return as_read(reading, shown.reshape(BANDS))


def _scale(reading: Reading) -> Array:
    """One deviation of each number, instrument and model together."""
    model = _MODEL_SHARE if reading.spectral else _MODEL_LAB
    shared = reading.noise.gain * (reading.values if reading.spectral else _LAB_OF_GAIN)
    return np.asarray(np.hypot(np.hypot(deviations(reading), shared), model))
