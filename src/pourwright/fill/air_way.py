"""How the air leaves the mold ahead of the plastic, and what it holds back."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.fill.vent import DEPTH_MM, LENGTH_MM, WIDTH_MM, depth_words
from pourwright.matter.air import ATMOSPHERE_PA, viscosity_pa_s
from pourwright.physics.duct import thin_slot_resistance

# The air on its way out, through a vent or what the leaks all around a cavity come to: estimate.
_AIR_C = 60.0


class AirWay(StrEnum):
    """How air gets out at the end of a cavity."""

    VENTED = "vents"
    LEAKS = "no vents, ordinary parting line"
    TIGHT = "no vents, tight parting line"


_LABEL = "gap the air leaves by"
_MEASURE = f"cut or scratch a vent of {depth_words()} at the end of each cavity"
_GAP_MM: dict[AirWay, Doubt] = {
    AirWay.VENTED: Doubt(_LABEL, DEPTH_MM, "", logarithmic=True),
    AirWay.LEAKS: Doubt(_LABEL, Band(0.03, 0.055, 0.09), _MEASURE, logarithmic=True),
    AirWay.TIGHT: Doubt(_LABEL, Band(0.004, 0.008, 0.015), _MEASURE, logarithmic=True),
}


@dataclass(frozen=True, slots=True, eq=False)
class Air:
    """The air in a mold; its resistance on the way out is a draw, Pa·s/m³."""

    resistance: Array

    def lets_flow(self, *, push_pa: Array, resistance: Array, filled: float) -> Array:
        """Flow of plastic against the air, m³/s.

        The air holds back with what its own flow takes, and never with more than it would if
        none got out (Boyle), so the larger of the two flows is the one.
        """
        leaking = push_pa / (resistance + self.resistance)
        squeezed = ATMOSPHERE_PA * filled / (1 - filled)
        return np.maximum(leaking, (push_pa - squeezed) / resistance)


def air_in(draws: Draws, way: AirWay, *, ends: float) -> Air:
    """Air that leaves at so many ends of cavities at once."""
    gap = draws.of(_LABEL, _GAP_MM[way]) / 1000
    thin = float(viscosity_pa_s(_AIR_C))
    each = thin_slot_resistance(thin, LENGTH_MM / 1000, WIDTH_MM / 1000, gap)
    return Air(np.asarray(each / ends))


def open_air(draws: Draws) -> Air:
    """Air that rises out of the way of plastic poured in from above."""
    return Air(draws.known(0.0))
