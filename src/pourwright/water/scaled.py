"""A water whose white disk goes out of sight where the angler's did."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import NoAnswer
from pourwright.water.content import TYPICAL_TRAITS, Content, Traits
from pourwright.water.daylight import OVERCAST
from pourwright.water.kind import WaterKind, typical_content
from pourwright.water.medium import Medium, medium_of
from pourwright.water.secchi import disk_m

# From next to nothing to mud that no boat goes through.
_LEAST, _MOST = 1e-4, 1e3
_HALVINGS = 40
_CLOSE = 0.01
_NONE_HELD: frozenset[str] = frozenset()


def typical_water(kind: WaterKind, secchi_m: float | None = None) -> Medium:
    """The middle of a kind of water, or that kind made to fit a white disk's depth.

    Raises: NoAnswer for a depth that no such water has.
    """
    content = typical_content(kind)
    if secchi_m is not None:
        content = fitted(content, TYPICAL_TRAITS, np.asarray(secchi_m))
    return medium_of(content)


def fitted(
    content: Content,
    traits: Traits,
    disk_depth_m: Array,
    *,
    held: frozenset[str] = _NONE_HELD,
    cosine: float = OVERCAST.cosine,
) -> Content:
    """The content scaled, but for what is held, until the disk's depth is met.

    Halves the ratio's logarithm: the depth only falls as anything grows.
    Raises: NoAnswer if the first of the draws cannot meet it; a later one stops at its end.
    """
    low = np.full(np.broadcast(content.chlorophyll_mg_m3, disk_depth_m).shape, np.log(_LEAST))
    high = np.full(low.shape, np.log(_MOST))

    def deeper(log_factor: Array) -> Array:
        water = medium_of(content.scaled(np.exp(log_factor), held), traits)
        return np.asarray(disk_m(water, cosine) > disk_depth_m)

    _check_reached(deeper(low), deeper(high), disk_depth_m)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        clear = deeper(middle)
        low, high = np.where(clear, middle, low), np.where(clear, high, middle)
    return content.scaled(np.exp((low + high) / 2), held)


def unmet(medium: Medium, disk_depth_m: Array, cosine: float) -> float:
    """Share of draws that stopped at an end: a hundredth or more off the depth asked for."""
    return float(np.mean(np.abs(disk_m(medium, cosine) / disk_depth_m - 1) > _CLOSE))


def _check_reached(clearest_does: Array, muddiest_does: Array, disk_depth_m: Array) -> None:
    asked = f"no such water hides a white disk at {disk_depth_m.flat[0]:.3g} m: "
    if not clearest_does.flat[0]:
        raise NoAnswer(asked + "with nothing more in it, it would hide it above that already")
    if muddiest_does.flat[0]:
        raise NoAnswer(asked + "no amount of what is left open makes it that murky")
