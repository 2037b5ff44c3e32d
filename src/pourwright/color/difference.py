"""How different two colors look, as a calculation."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.calc import calculation
from pourwright.base.field import out, part
from pourwright.base.record import Record
from pourwright.base.source import PRACTICE, published
from pourwright.color.lab import Lab
from pourwright.spectrum.difference import delta_e00, delta_e76, in_words


@dataclass(frozen=True, slots=True, kw_only=True)
class DifferenceInput(Record):
    """Two colors."""

    first: Lab = part("One color")
    second: Lab = part("The other color")


@dataclass(frozen=True, slots=True)
class DifferenceAnswer:
    """How far apart two colors are."""

    delta_e00: float = out("CIEDE2000; about 1 is the least that can be seen")
    delta_e76: float = out("CIE 1976, the plain distance in L*a*b*")
    words: str = out("In words")


@calculation(
    "color.difference",
    purpose="how different two colors look",
    sources=(
        published("Sharma, Wu and Dalal, Color Res. Appl. 30 (2005) 21, eqs. 2 to 22"),
        published("ISO/CIE 11664-4:2019, L*a*b* and its distance"),
        PRACTICE,
    ),
    example={
        "first": {"lightness": 50, "a": 2.6772, "b": -79.7751},
        "second": {"lightness": 50, "a": 0, "b": -82.7485},
    },
)
def difference(inputs: DifferenceInput) -> DifferenceAnswer:
    """CIEDE2000, the plain distance, and words for the eye.

    Source: Sharma, Wu and Dalal (2005), table 1, pair 1.

    >>> first, second = Lab(lightness=50, a=2.6772, b=-79.7751), Lab(lightness=50, a=0, b=-82.7485)
    >>> round(difference(DifferenceInput(first=first, second=second)).delta_e00, 4)
    2.0425
    """
    one, two = inputs.first.array(), inputs.second.array()
    seen = float(delta_e00(one, two))
    return DifferenceAnswer(seen, float(delta_e76(one, two)), in_words(seen))
