"""How the fused plastic flows: believed from a timed shot, or typical."""

from __future__ import annotations

from pourwright.base.band import Band
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.matter.flow import MELT_PA_S, MELT_SLOPE_K, melt_viscosity_pa_s


def viscosity_draws(draws: Draws, found: Band | None, melt_c: Array) -> Array:
    """Draws of the viscosity at the temperature of the shot; `found` is the one at 170 °C."""
    believed = MELT_PA_S.doubt()
    if found is not None:
        believed = Doubt(believed.label, found, believed.measure, logarithmic=True)
    at_170c = draws.of(MELT_PA_S.label, believed)
    return melt_viscosity_pa_s(melt_c, at_170c, MELT_SLOPE_K.drawn(draws))


def melt_note(found: Band | None) -> tuple[str, ...]:
    """A word where the typical viscosity stands in."""
    if found is not None:
        return ()
    low, typical, high = MELT_PA_S.ends
    stands_in = f"typical {typical:g} Pa·s ({low:g} to {high:g}) stands in"
    return (f"melt_pa_s was left out: {stands_in}. To replace it, {MELT_PA_S.measure}.",)
