"""Four sorts of water by their look, with what is in them."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum

import numpy as np

from pourwright.base.band import Band
from pourwright.base.source import estimate
from pourwright.matter.property import Property
from pourwright.water.content import NAMES, Content

SOURCE = estimate("what is in clear, green, tea-stained and muddy water: our own round figures")
# How far waters of one look differ from its middle; estimate.
SPREAD = 3.0


class WaterKind(StrEnum):
    """Waters by their look."""

    CLEAR = "clear"
    GREEN = "green"
    TEA = "tea-stained"
    MUDDY = "muddy"


# Chlorophyll mg/m³, stain at 440 nm 1/m, silt g/m³; estimate.
_MIDDLES: Mapping[WaterKind, tuple[float, float, float]] = {
    WaterKind.CLEAR: (1.5, 0.15, 0.5),
    WaterKind.GREEN: (20.0, 0.6, 3.0),
    WaterKind.TEA: (4.0, 7.0, 2.0),
    WaterKind.MUDDY: (6.0, 1.5, 50.0),
}
_WORDS = {
    "chlorophyll_mg_m3": "algae in the water",
    "stain_per_m": "tea stain in the water",
    "mineral_g_m3": "silt in the water",
}
MEASURE = "lower a white disk on a cord until it is out of sight and type that depth"


def properties(kind: WaterKind, measure: str = MEASURE) -> Mapping[str, Property]:
    """What is in a kind of water, by the names of `Content`, and what would narrow it."""
    return {
        name: Property(
            _WORDS[name], Band(middle / SPREAD, middle, middle * SPREAD), SOURCE, measure,
            logarithmic=True,
        )
        for name, middle in zip(NAMES, _MIDDLES[kind], strict=True)
    }  # fmt: skip


def typical_content(kind: WaterKind) -> Content:
    """The middle of a kind of water."""
    return Content(*(np.asarray(v) for v in _MIDDLES[kind]))
