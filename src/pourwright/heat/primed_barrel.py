"""An injector drawn full while it is cold, and once it was primed with hot plastic."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.band import Band
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.field import out
from pourwright.heat.barrel import Barrel, Filled, filled
from pourwright.matter import plastisol
from pourwright.matter.mold_material import CONTACT_FILM

# A skin colder than this hardly flows in with the rest; read so long after drawing: estimates.
CHILLED_C = 140.0
SOON_S = 10.0
PRIMED_S = Doubt(
    "time the first draw stays in the barrel", Band(3, 8, 20), "time one draw and return"
)


@dataclass(frozen=True, slots=True)
class BarrelWindow:
    """What one start of the barrel leaves to shoot in."""

    barrel_c: Band = out("Barrel when drawn full")
    window_s: Band = out("Time until the mean is at least_c")
    soon_c: Band = out("Mean of the plastic ten seconds after drawing")
    chilled_share: float = out("Share of the plastic below 140 °C by then, 0 to 1")


def drawn_barrel(draws: Draws, *, bore_m: Array, wall_m: Array, ambient_c: Array) -> Barrel:
    """A barrel with the contact and the properties the whole house draws."""
    return Barrel(
        bore_m=bore_m,
        wall_m=wall_m,
        alpha_m2_s=plastisol.DIFFUSIVITY_M2_S.drawn(draws),
        k_w_mk=plastisol.CONDUCTIVITY_W_MK.drawn(draws),
        film_w_m2k=CONTACT_FILM.drawn(draws),
        ambient_c=ambient_c,
    )


def primed_c(draws: Draws, barrel: Barrel, *, melt_c: float) -> Array:
    """A barrel at room temperature after one draw of hot plastic and its return to the cup."""
    first = filled(barrel, melt_c=melt_c, barrel_c=barrel.ambient_c)
    return first.wall_c(draws.of("primed", PRIMED_S))


def barrel_window(draws: Draws, full: Filled, *, barrel_c: Array, least_c: float) -> BarrelWindow:
    """The window of one start, and what the plastic is like ten seconds on."""
    soon = draws.known(SOON_S)
    return BarrelWindow(
        barrel_c=draws.band(barrel_c),
        window_s=draws.band(full.window_s(least_c)),
        soon_c=draws.band(full.mean_c(soon)),
        chilled_share=float(full.colder_share(soon, CHILLED_C)[0]),
    )
