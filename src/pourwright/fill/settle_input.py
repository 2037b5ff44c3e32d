"""What is asked of settling: a particle, a plastic and two times."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pourwright.base.band import Band
from pourwright.base.errors import BadInput
from pourwright.base.field import band, number, pick, unmeasured
from pourwright.base.record import Record
from pourwright.matter.additive import FLAKE_FILM_UM
from pourwright.matter.flow import LIQUID_PA_S


class Particle(StrEnum):
    """What may sink or float."""

    FLAKE = "flake"
    SALT = "salt"
    HOLLOW_GLASS = "hollow_glass"
    PEARL_POWDER = "pearl_powder"


class State(StrEnum):
    """Plastic raw from the jug, or fused and hot."""

    MELT = "melt"
    LIQUID = "liquid"


@dataclass(frozen=True, slots=True, kw_only=True)
class SettleInput(Record):
    """A particle, a plastic and two times."""

    particle: Particle = pick("What", default=Particle.FLAKE)
    size_mm: float = number("Across: flake from flat to flat, grain as a ball", low=0.005, high=6)
    film_um: float | None = unmeasured(
        "Flake: film thickness", low=8, high=250, typical=FLAKE_FILM_UM.ends,
        label=FLAKE_FILM_UM.label, measure=FLAKE_FILM_UM.measure, logarithmic=True,
    )  # fmt: skip
    density_g_ml: float | None = number(
        "Its density; left out, that of its sort", low=0.05, high=20, default=None
    )
    grams_per_100g: float = number("Grams to 100 g of plastic", low=0, high=100, default=0)
    plastic: State = pick("Plastic fused and hot, or raw", default=State.MELT)
    plastic_c: float | None = number(
        "Temperature of the plastic; left out, 170 °C fused and 22 °C raw",
        low=5, high=220, default=None,
    )  # fmt: skip
    melt_pa_s: Band | None = band(
        "Viscosity of the fused plastic at 170 °C, as a timed shot found it; left out, typical",
        low=0.02, high=200, default=None,
    )  # fmt: skip
    liquid_pa_s: float | None = unmeasured(
        "Viscosity of the raw liquid at 25 °C", low=0.02, high=50, typical=LIQUID_PA_S.ends,
        label=LIQUID_PA_S.label, measure=LIQUID_PA_S.measure, logarithmic=True,
    )  # fmt: skip
    stand_s: float = number("How long the cup or jug stands unstirred", low=1, high=1e6, default=60)
    set_s: float | None = unmeasured(
        "How long the plastic in the mold stays runny", low=0.5, high=600, typical=(8, 20, 60),
        label="time to set in the mold", measure="open one mold early, again and again",
        logarithmic=True,
    )  # fmt: skip
    shows_mm: float = number("How far it may go before it shows", low=0.05, high=50, default=1.0)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    @property
    def temp_c(self) -> float:
        """Temperature, given or usual for the state."""
        if self.plastic_c is not None:
            return self.plastic_c
        return 170.0 if self.plastic is State.MELT else 22.0

    def check(self) -> None:
        """Refuse a temperature that does not go with the state, and a flake thicker than wide."""
        if self.plastic is State.MELT and self.temp_c < 100:
            raise BadInput("plastic_c", self.plastic_c, "is too cold for fused plastic that runs")
        if self.plastic is State.LIQUID and self.temp_c > 60:
            raise BadInput("plastic_c", self.plastic_c, "is too hot for raw liquid: it gels")
        if (
            self.particle is Particle.FLAKE
            and self.film_um is not None
            and self.film_um > 1000 * self.size_mm
        ):
            raise BadInput("film_um", self.film_um, "must not exceed the flake's width")
