"""How different two colors look, as a calculation."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.calc import calculation
from pourwright.base.field import number, out, part
from pourwright.base.record import Record
from pourwright.base.source import published
from pourwright.spectrum.difference import delta_e00, delta_e76, in_words


@dataclass(frozen=True, slots=True, kw_only=True)
class Lab(Record):
    """A color."""

    lightness: float = number("L*", low=0, high=150)
    a: float = number("a*", low=-200, high=200)
    b: float = number("b*", low=-200, high=200)


@dataclass(frozen=True, slots=True, kw_only=True)
class DifferenceInput(Record):
    """Two colors."""

    first: Lab = part("One color")
    second: Lab = part("The other")


@dataclass(frozen=True, slots=True)
class DifferenceAnswer:
    """Differences."""

    delta_e00: float = out("CIEDE2000")
    delta_e76: float = out("CIE 1976")
    words: str = out("In words")


@calculation(
    "color.difference",
    purpose="how different two colors look",
    sources=(published("Sharma, Wu and Dalal, Color Res. Appl. 30 (2005) 21"),),
    example={
        "first": {"lightness": 50, "a": 2.6772, "b": -79.7751},
        "second": {"lightness": 50, "a": 0, "b": -82.7485},
    },
)
def difference(inputs: DifferenceInput) -> DifferenceAnswer:
    """CIEDE2000 and the plain distance."""
    one, two = (np.array([c.lightness, c.a, c.b]) for c in (inputs.first, inputs.second))
    seen = float(delta_e00(one, two))
    return DifferenceAnswer(seen, float(delta_e76(one, two)), in_words(seen))
