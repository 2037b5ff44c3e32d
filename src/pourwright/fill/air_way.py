"""How the air leaves the mold ahead of the plastic, and what it holds back."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.matter.air import ATMOSPHERE_PA, viscosity_pa_s
from pourwright.physics.duct import thin_slot_resistance

# What the vents, or the leaks all around a cavity, come to at its end; the air in it: estimates.
_WIDTH_M, _LENGTH_M, _AIR_C = 4e-3, 10e-3, 60.0


class AirWay(StrEnum):
    """How air gets out at the end of a cavity."""

    VENTED = "vents"
    LEAKS = "no vents, ordinary parting line"
    TIGHT = "no vents, tight parting line"


_MEASURE = "cut or scratch a vent of 0.05 to 0.1 mm at the end of each cavity"
_GAP_MM: dict[AirWay, Doubt] = {
    AirWay.VENTED: Doubt("gap the air leaves by", Band(0.06, 0.08, 0.1), "", logarithmic=True),
    AirWay.LEAKS: Doubt(
        "gap the air leaves by", Band(0.03, 0.055, 0.09), _MEASURE, logarithmic=True
    ),
    AirWay.TIGHT: Doubt(
        "gap the air leaves by", Band(0.004, 0.008, 0.015), _MEASURE, logarithmic=True
    ),
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
    gap = draws.of("gap the air leaves by", _GAP_MM[way]) / 1000
    each = thin_slot_resistance(float(viscosity_pa_s(_AIR_C)), _LENGTH_M, _WIDTH_M, gap)
    return Air(np.asarray(each / ends))


def open_air(draws: Draws) -> Air:
    """Air that rises out of the way of plastic poured in from above."""
    return Air(draws.known(0.0))
