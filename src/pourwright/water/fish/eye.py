"""An eye: its cones, how many of each, and what they catch."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.errors import BadInput
from pourwright.base.source import estimate
from pourwright.matter.property import Property
from pourwright.spectrum.light import BANDS, WAVELENGTHS_NM
from pourwright.water.fish.pigment import sensitivity

NOISE = Property(
    "noise of the cones", Band(0.05, 0.07, 0.10),
    estimate("5 % is usually assumed; cichlids behaved as if they had more (Escobar-Camacho 2019)"),
    logarithmic=True,
)  # fmt: skip
FEWEST_CONES = 2


@dataclass(frozen=True, slots=True)
class Cone:
    """A class of cone: where its pigment peaks, and its cells in one unit of the mosaic."""

    peak_nm: float
    cells: Band


@dataclass(frozen=True, slots=True)
class Eye:
    """Cones from the shortest peak to the longest; the last one sees brightness.

    `a2` is the share of the freshwater chromophore, 0 to 1.
    """

    name: str
    cones: tuple[Cone, ...]
    a2: Band
    noise: Band = NOISE.band

    def __post_init__(self) -> None:
        peaks = [c.peak_nm for c in self.cones]
        if len(peaks) < FEWEST_CONES:
            raise BadInput("cones", len(peaks), "needs two or more, for one cone sees no color")
        if sorted(set(peaks)) != peaks:
            raise BadInput("cones", peaks, "needs different peaks, the shortest first")

    def caught(self, light: Array, a2: Array) -> Array:
        """Photons each class catches of a light on the 31 bands, relative: (draws, cones).

        Light is power to a nanometer; a photon of long waves carries less of it, so that the same
        power brings more of them. `a2` holds one share to a draw, and so may the light.
        """
        photons = light * WAVELENGTHS_NM
        sea, fresh = (photons @ self.sensitivities(a2=way).T for way in (False, True))
        return np.asarray(sea + a2[:, None] * (fresh - sea))

    def sensitivities(self, *, a2: bool) -> Array:
        """What each class catches of each band, (cones, 31)."""
        return np.stack([sensitivity(WAVELENGTHS_NM, c.peak_nm, a2=a2) for c in self.cones])

    def drawn_cells(self, draws: Draws) -> Array:
        """Cells of each class, (draws, cones)."""
        return np.stack([draws.of(*_cells(cone)) for cone in self.cones], axis=-1)

    def drawn_a2(self, draws: Draws) -> Array:
        """Shares of the freshwater chromophore, (draws,), none beyond 0 or 1."""
        doubt = Doubt("which chromophore the cones hold", self.a2)
        return np.clip(draws.of("a2 share", doubt), 0, 1)

    def drawn_noise(self, draws: Draws) -> Array:
        """Noise of the class that sees brightness, (draws,)."""
        return draws.of("noise", Doubt(NOISE.label, self.noise, logarithmic=True))


def check_bands(name: str, values: Array) -> None:
    """Refuse spectra of another length, or without any light; the last axis holds the bands."""
    if values.shape[-1:] != (BANDS,):
        raise BadInput(name, values.shape, f"needs {BANDS} values, one to 10 nm from 400 to 700")
    if not np.all(np.isfinite(values)) or values.min() < 0 or values.max(axis=-1).min() <= 0:
        raise BadInput(name, float(values.max()), "must hold some light, and none below zero")


def _cells(cone: Cone) -> tuple[str, Doubt]:
    label = f"how many cones peak at {cone.peak_nm:g} nm"
    return label, Doubt(label, cone.cells, logarithmic=True)
