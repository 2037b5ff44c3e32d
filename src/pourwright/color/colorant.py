"""What every colorant kind is: something whose grams do something to light."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.record import Record
from pourwright.color.sheen import Sheen
from pourwright.spectrum.light import BANDS


@dataclass(frozen=True, slots=True)
class Stuff:
    """What a dose adds to a layer, by draw.

    Absorption and reduced scattering per mm, shape (draws, 31); area of flake faces in mm² to a
    mm³ of plastic, shape (draws,), and the reflectance those faces show, shape (31,).
    """

    absorb_mm: Array
    scatter_mm: Array
    faces_per_mm: Array
    faces_show: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class Colorant(Record):
    """Something stirred in; `key` is stored and never changes.

    `limit` says in words what its forecast leaves out; empty where there is nothing to say.
    `mixes` is false for what no forecast of a mixture holds for. `measured` says whether its
    constants come from readings.
    """

    key: ClassVar[str] = ""
    label: ClassVar[str] = ""
    limit: ClassVar[str] = ""
    mixes: ClassVar[bool] = True
    measured: ClassVar[bool] = False

    @property
    def loose(self) -> int:
        """How many standard-normal scores its constants hang on, beside its fields."""
        return 0

    @abstractmethod
    def stuff(self, grams_per_100g: Array, values: Mapping[str, Array]) -> Stuff:
        """What these grams add.

        `values` holds the draws of the fields that may go unmeasured, and of "score 0", "score 1"
        and so on for as many as are loose.
        """

    def sheen(self, grams_per_100g: Array, values: Mapping[str, Array]) -> Sheen | None:  # noqa: ARG002 - most kinds have none
        """The plates these grams lay along the skin, by the first draw; None for what has none."""
        return None


def tinting(absorb_mm: Array, scatter_mm: Array) -> Stuff:
    """What spreads through the plastic and has no faces."""
    return Stuff(absorb_mm, scatter_mm, np.zeros(len(absorb_mm)), np.zeros(BANDS))


def inert(rows: int) -> Stuff:
    """What something without color adds."""
    nothing = np.zeros((rows, BANDS))
    return tinting(nothing, nothing)
