"""What lies behind the bait."""

from __future__ import annotations

from enum import StrEnum

from pourwright.base.errors import BadInput
from pourwright.color.starter import WHITE_GROUND


class Backing(StrEnum):
    """A ground by name, or any gray by its reflectance."""

    WHITE = "white"
    DARK = "dark"
    OTHER = "other"


# White card and dark cloth; estimates.
GROUND = {Backing.WHITE: WHITE_GROUND, Backing.DARK: 0.05}


def check_ground(backing: Backing, ground_share: float | None) -> None:
    """Refuse a reflectance without its ground, or the other way round."""
    if (backing is Backing.OTHER) != (ground_share is not None):
        raise BadInput("ground_share", ground_share, "goes with the ground 'other', and only there")


def ground_of(backing: Backing, ground_share: float | None) -> float:
    """Reflectance of a ground by its name, or as given."""
    return GROUND[backing] if ground_share is None else ground_share
