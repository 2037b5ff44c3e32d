"""What lies behind the bait."""

from __future__ import annotations

from enum import StrEnum

from pourwright.color.starter import WHITE_GROUND


class Backing(StrEnum):
    """A ground by name, or any gray by its reflectance."""

    WHITE = "white"
    DARK = "dark"
    OTHER = "other"


# White card and dark cloth; estimates.
GROUND = {Backing.WHITE: WHITE_GROUND, Backing.DARK: 0.05}
