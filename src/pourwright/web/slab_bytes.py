"""The color engine's tables of slabs as they travel to the browser, once."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from pourwright.color.slab import Number, Placing, dense

# What a drawing looks up: a slab behind its face, and the plastic over a flake.
_FACE: tuple[Number, ...] = ("back", "through", "ground gain", "returned")
_BURIED: tuple[Number, ...] = ("back", "ground gain", "returned")
TABLES: Mapping[str, tuple[Placing, tuple[Number, ...]]] = {
    "air": (Placing.HAND, _FACE),
    "air-buried": (Placing.HAND.buried, _BURIED),
    "water": (Placing.WATER, _FACE),
    "water-buried": (Placing.WATER.buried, _BURIED),
}


def tables_of(wet: bool) -> dict[str, str]:
    """Where the tables are found of a bait under water, or of one in air."""
    outside = "water" if wet else "air"
    return {"face": f"/slabs/{outside}", "buried": f"/slabs/{outside}-buried"}


def packed(name: str) -> bytes:
    """Rows, columns and numbers to a node as uint32, then every node as little-endian halves."""
    placing, numbers = TABLES[name]
    table = np.stack([dense(number, placing) for number in numbers], axis=-1)
    return np.array(table.shape, "<u4").tobytes() + table.astype("<f2").tobytes()
