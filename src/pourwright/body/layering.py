"""Whether layers fill a bait: each in its own place, with shares that add up to 1."""

from __future__ import annotations

from collections.abc import Sequence

from pourwright.base.errors import BadInput

# Shares may miss 1 by so much, so that thirds can be entered as 0.333.
SHARE_SLACK = 0.005


def refuse_same_places(places: Sequence[str]) -> None:
    """Refuse two layers in one place. Raises: BadInput naming `layers`."""
    if len(set(places)) != len(places):
        raise BadInput("layers", [str(place) for place in places], "each layer needs its own place")


def refuse_odd_sum(shares: Sequence[float]) -> None:
    """Refuse shares that leave some of the bait or want more of it. Raises: as above."""
    total = sum(shares)
    if abs(total - 1) > SHARE_SLACK:
        raise BadInput("layers", round(total, 4), "the shares of the layers must add up to 1")
