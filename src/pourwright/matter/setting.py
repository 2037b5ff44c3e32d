"""The temperature under which fused plastisol no longer flows."""

from __future__ import annotations

from pourwright.base.band import Band
from pourwright.base.source import estimate
from pourwright.matter.property import Property

SETS_C = Property(
    "temperature under which the fused plastic stops flowing",
    Band(117.0, 130.0, 143.0),
    estimate("the gel of a soft PVC stiffens within some kelvin as it cools; spread of 8 K"),
    "let a cup cool with a probe in it and note when it no longer runs off the stick",
)
