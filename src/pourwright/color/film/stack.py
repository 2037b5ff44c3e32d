"""Light mirrored by a stack of clear thin layers, by each layer's characteristic matrix."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array

Complex = NDArray[np.complex128]


@dataclass(frozen=True, slots=True)
class Layer:
    """A clear layer: index and thickness in nm, broadcast with the wavelengths."""

    index: Array
    thick_nm: Array


def mirrored_s_p(
    layers: Sequence[Layer], *, around: Array | float, angle_rad: Array, wave_nm: Array
) -> tuple[Array, Array]:
    """Reflectance of layers between two halves of one medium, for both polarizations.

    `around` is the index of the medium, `angle_rad` the angle of incidence within it, from 0 to
    below a right angle; everything broadcasts together. Light that a layer turns back wholly still
    leaks through it (frustrated reflection), so the angle in a layer may be complex.
    Source: Born and Wolf, Principles of Optics, section 1.6, from memory.
    """
    along = np.asarray(around) * np.sin(angle_rad)
    outside = np.cos(angle_rad)
    inner = [(layer, _cosine(along, layer.index)) for layer in layers]
    s = _mirrored(
        np.asarray(around * outside, dtype=complex),
        [(layer.index * c, _phase(layer, c, wave_nm)) for layer, c in inner],
    )
    p = _mirrored(
        np.asarray(around / outside, dtype=complex),
        [(layer.index / c, _phase(layer, c, wave_nm)) for layer, c in inner],
    )
    return s, p


def _cosine(along: Array, index: Array) -> Complex:
    return np.asarray(np.sqrt(1 - (along / index).astype(complex) ** 2))


def _phase(layer: Layer, cosine: Complex, wave_nm: Array) -> Complex:
    return np.asarray(2 * np.pi * layer.index * layer.thick_nm * cosine / wave_nm)


def _mirrored(outside: Complex, layers: Sequence[tuple[Complex, Complex]]) -> Array:
    """Reflectance by the admittance outside, and the admittance and phase of each layer."""
    electric, magnetic = np.ones_like(outside), outside
    for admittance, phase in reversed(layers):
        turn, lag = np.cos(phase), 1j * np.sin(phase)
        electric, magnetic = (
            electric * turn + magnetic * lag / admittance,
            magnetic * turn + electric * lag * admittance,
        )
    amplitude = (outside * electric - magnetic) / (outside * electric + magnetic)
    return np.asarray(np.abs(amplitude) ** 2)
