"""What stands on a header card: the label of a bag, and its look in the bait."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.pixels import Pixels
from pourwright.shop.label import BagLabel


@dataclass(frozen=True, slots=True, kw_only=True)
class HeaderCard:
    """A card; `picture` is none where `no_picture` says why."""

    label: BagLabel
    picture: Pixels | None = None
    no_picture: str = ""
