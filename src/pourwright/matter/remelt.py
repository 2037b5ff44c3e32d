"""What a heat takes of the plastic's heat budget, where nobody logged it."""

from __future__ import annotations

from pourwright.base.band import Band
from pourwright.base.source import estimate
from pourwright.matter.property import Property

HEAT_DOSE = Property(
    "heat budget used by one earlier heat",
    Band(0.03, 0.15, 0.5),
    estimate("hottest place: 0.04 in careful rounds, 0.15 in usual ones, 0.44 held ten min longer"),
    "log one heat: what the thermometer reads, and when",
    logarithmic=True,
)
