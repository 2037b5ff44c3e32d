"""How much of a bait each layer of a look takes: by the bait's shape, or as entered."""

from __future__ import annotations

import functools
from dataclasses import dataclass

from pourwright.base.errors import BadInput, NoAnswer
from pourwright.body.division_of import Build, divided
from pourwright.body.split import Split
from pourwright.body.split_bars import volumes
from pourwright.forecast.request import LayerPart
from pourwright.plan.bait_build import bait_build
from pourwright.shop.look import Look
from pourwright.shop.mold import Bait
from pourwright.shop.own_shape import OwnShape

# A layer of less cannot be poured, let alone planned.
LEAST_SHARE = 0.01
NO_SHAPE = "as entered, since this bait has no shape to part into layers"


@dataclass(frozen=True, slots=True)
class LayerShares:
    """Share of each layer, in the order of the look; `told_by` is empty where all were entered."""

    shares: tuple[float, ...]
    told_by: str = ""


def layer_shares(look: Look, bait: Bait | None, own: OwnShape | None = None) -> LayerShares:
    """Shares from line, vein and core in this bait's shape where the look gives one of them.

    Raises: BadInput where the look and the bait do not go together.
    """
    entered = tuple(layer.share for layer in look.layers)
    places = tuple(layer.place.value for layer in look.layers)
    if not look.split.tells(places):
        return LayerShares(entered)
    build = bait_build(bait, own) if bait else None
    if bait is None or build is None:
        return LayerShares(entered, NO_SHAPE)
    try:
        shares = _shares_in(build, places, look.split, entered)
    except NoAnswer as error:
        raise BadInput("look", look.name, f"does not fit {bait.name!r}: {error}") from error
    least = min(shares)
    if least < LEAST_SHARE:
        thin = places[shares.index(least)]
        why = f"leaves the {thin} {least:.1%} of {bait.name!r}; give it more room"
        raise BadInput("look", look.name, why)
    return LayerShares(shares, f"from {_measures(look)} in the shape of {bait.name!r}")


@functools.lru_cache(maxsize=64)
def _shares_in(
    build: Build, places: tuple[str, ...], split: Split, entered: tuple[float, ...]
) -> tuple[float, ...]:
    found = volumes(build.bars, divided(build, places, split, shares=entered))
    return tuple(found[place] / sum(found.values()) for place in places)


def share_notes(layers: tuple[LayerPart, ...]) -> tuple[str, ...]:
    """What the shares of the layers were worked out from; nothing where they were entered."""
    told = {layer.told_by for layer in layers if layer.told_by}
    shares = ", ".join(f"{layer.name} {layer.share:.1%}" for layer in layers)
    return tuple(
        f"Layers: {shares} of the bait, {words}. To check it, cut one bait across in five places "
        "and measure how high its line lies."
        for words in sorted(told)
    )


def _measures(look: Look) -> str:
    split, places = look.split, {layer.place.value for layer in look.layers}
    told = {
        "the height of the line": split.line_height or split.belly_height,
        "the size of the vein": split.vein_thick_mm if "vein" in places else None,
        "the size of the core": split.core_share if "core" in places else None,
    }
    return " and ".join(words for words, given in told.items() if given is not None)
