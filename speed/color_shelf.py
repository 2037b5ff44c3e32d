"""Invented shelves of 8 and 20 colorants for the benches of color."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.colorant import Colorant
from pourwright.color.constants import Constants
from pourwright.color.kinds.measured import Measured
from pourwright.color.match.bottle import Bottle
from pourwright.spectrum.light import WAVELENGTHS_NM

_X = WAVELENGTHS_NM


@dataclass(frozen=True, slots=True)
class Invented:
    """An edge (absorbs below `at_nm`) or a band around it; strengths per mm for 1 g in 100 g."""

    name: str
    shape: str
    at_nm: float
    width_nm: float
    absorbs: float
    scatters: float

    def bottle(self) -> Bottle:
        """The same as a measured bottle of 0.035 g drops."""
        off = (_X - self.at_nm) / self.width_nm
        shapes: dict[str, Array] = {
            "edge": 1 / (1 + np.exp(off)), "band": np.exp(-0.5 * off**2), "flat": np.ones(len(_X)),
        }  # fmt: skip
        absorb = self.absorbs * (shapes[self.shape] + 0.004)
        scatter = self.scatters * (_X / 550) ** -1.0
        constants = Constants(absorb_mm=tuple(absorb.tolist()), scatter_mm=tuple(scatter.tolist()))
        colorant: Colorant = Measured(constants=constants)
        return Bottle(name=self.name, drop_mass_g=0.035, colorant=colorant)


_EIGHT = (
    Invented("white", "edge", 402, 6, 0.2, 4.0),
    Invented("black", "flat", 550, 1, 3.0, 0.3),
    Invented("yellow", "edge", 490, 9, 1.6, 0.25),
    Invented("red", "edge", 595, 11, 1.6, 0.35),
    Invented("magenta dye", "band", 535, 34, 1.3, 0.01),
    Invented("blue", "band", 600, 46, 1.3, 0.2),
    Invented("cyan dye", "band", 650, 42, 1.2, 0.01),
    Invented("orange", "edge", 560, 10, 1.5, 0.25),
)
_MORE = (
    Invented("lemon dye", "edge", 468, 8, 1.2, 0.01),
    Invented("gold dye", "edge", 515, 14, 1.2, 0.01),
    Invented("scarlet dye", "edge", 585, 9, 1.3, 0.01),
    Invented("crimson", "band", 520, 50, 1.5, 0.3),
    Invented("violet dye", "band", 570, 38, 1.3, 0.01),
    Invented("navy", "band", 600, 70, 1.8, 0.15),
    Invented("green", "band", 655, 40, 1.0, 0.3),
    Invented("lime dye", "edge", 450, 10, 0.8, 0.01),
    Invented("brown", "edge", 560, 45, 1.4, 0.4),
    Invented("ochre", "edge", 520, 32, 1.2, 0.5),
    Invented("pink dye", "band", 550, 26, 0.9, 0.01),
    Invented("smoke dye", "flat", 550, 1, 0.7, 0.01),
)


def shelf(size: int) -> tuple[Bottle, ...]:
    """The first so many, at most 20."""
    return tuple(i.bottle() for i in (*_EIGHT, *_MORE)[:size])
