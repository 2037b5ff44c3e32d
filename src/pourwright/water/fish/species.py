"""Fish whose cones somebody has measured, and fish whose cones nobody here has read of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from pourwright.base.band import Band, exact
from pourwright.base.errors import BadInput
from pourwright.base.source import Source, published
from pourwright.water.fish.eye import Cone, Eye


class Species(StrEnum):
    """Fish a maker may ask about."""

    LARGEMOUTH_BASS = "largemouth bass"
    GREEN_SUNFISH = "green sunfish"
    BROWN_TROUT = "brown trout"
    RAINBOW_TROUT = "rainbow trout"
    WALLEYE = "walleye"
    YELLOW_PERCH = "yellow perch"
    STRIPED_BASS = "striped bass"
    RED_DRUM = "red drum"
    SPOTTED_SEATROUT = "spotted seatrout"
    SNOOK = "common snook"


@dataclass(frozen=True, slots=True)
class Known:
    """An eye with the paper it comes from, and what that paper leaves open."""

    eye: Eye
    source: Source
    note: str


# Square mosaics hold one single cone to two double cones; how strictly is an estimate.
_SINGLE = exact(1.0)
_DOUBLE = Band(1.0, 2.0, 4.0)
_FRESH = Band(0.6, 1.0, 1.0)
_MOSTLY_FRESH = Band(0.6, 0.9, 1.0)
_MIXED = Band(0.1, 0.5, 0.9)

KNOWN: Mapping[Species, Known] = {
    Species.LARGEMOUTH_BASS: Known(
        Eye(
            "largemouth bass",
            (Cone(535, _SINGLE), Cone(614, _DOUBLE)),
            _FRESH,
        ),
        published("Mitchem, Stanis, Sutton, Turner and Fuller, Curr. Zool. 65 (2019) 43"),
        "That the cones hold the freshwater chromophore is assumed: a peak of 614 nm needs it.",
    ),
    Species.GREEN_SUNFISH: Known(
        Eye(
            "green sunfish",
            (Cone(532, _SINGLE), Cone(621, _DOUBLE)),
            _FRESH,
        ),
        published("Dearry and Barlow (1987), as restated by Lynch, Univ. of Pennsylvania (1998)"),
        "The peaks were read where another author restates them.",
    ),
    Species.BROWN_TROUT: Known(
        Eye(
            "brown trout",
            (Cone(440, _SINGLE), Cone(535, _DOUBLE), Cone(600, _DOUBLE)),
            _MOSTLY_FRESH,
        ),
        published(
            "Bowmaker and Kunz, Vision Res. 27 (1987) 2101; Allen, McFarland, Munz and Poston, "
            "Can. J. Zool. 51 (1973) 901, chromophore"
        ),
        "Yearlings also see ultraviolet (a cone at 355 nm), which is left out.",
    ),
    Species.RAINBOW_TROUT: Known(
        Eye(
            "rainbow trout",
            (Cone(434, _SINGLE), Cone(531, _DOUBLE), Cone(576, _DOUBLE)),
            _MIXED,
        ),
        published("Hawryshyn and Harosi, Vision Res. 34 (1994) 1385"),
        "Measured in young fish; they also see ultraviolet (a cone at 365 nm), which is left out. "
        "The mosaic is taken to be that of the brown trout.",
    ),
}

_UNREAD = "figures are about, but their paper was not read here"
_SPAN_ONLY = (
    "the whole eye was measured to answer to 400 to 610 nm (Horodysky et al. 2008), not its cones"
)
UNKNOWN: Mapping[Species, str] = {
    Species.WALLEYE: _UNREAD,
    Species.YELLOW_PERCH: "only its rods were found measured (530 nm, Pothier and Ali 1978)",
    Species.STRIPED_BASS: _UNREAD,
    Species.RED_DRUM: _SPAN_ONLY,
    Species.SPOTTED_SEATROUT: _SPAN_ONLY,
    Species.SNOOK: "no measurement was found",
}


def known(species: Species) -> Known:
    """The eye of a fish. Raises: BadInput, with the reason, where no cone peaks are sure."""
    if species in UNKNOWN:
        raise BadInput(
            "species", species.value,
            f"has no cone peaks here: {UNKNOWN[species]}. If you know its peaks, type them as "
            "cones; if not, pick another fish",
        )  # fmt: skip
    return KNOWN[species]
