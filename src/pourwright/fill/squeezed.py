"""Plastic in a full mold under a plunger: its pressure, and how it creeps into gaps."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn, left_out
from pourwright.base.band import Band
from pourwright.base.draws import Array, Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import band, flag, number, pick, unmeasured
from pourwright.base.record import Record
from pourwright.fill.flash import creep_m, never_shuts
from pourwright.fill.melt import melt_note, viscosity_draws
from pourwright.fill.push import BORE_MM, ONE_HAND_N, TWO_HANDS_N, push_note
from pourwright.fill.skin import chill
from pourwright.matter.mold_material import MOLD_C, MoldMaterial


@dataclass(frozen=True, slots=True, kw_only=True)
class SqueezedInput(Record):
    """A push on plastic in a mold."""

    push_n: float | None = unmeasured(
        "Push on the plunger", low=5, high=5000, typical=ONE_HAND_N.ends,
        label="push on the plunger", measure=ONE_HAND_N.measure,
    )  # fmt: skip
    two_hands: bool = flag("Two hands on the plunger; counts where the push is left out")
    bore_mm: float | None = unmeasured(
        "Bore of the injector", low=8, high=120, typical=BORE_MM, label="bore of the injector",
        measure="measure across the barrel",
    )  # fmt: skip
    melt_c: float = number("Plastic when the mold is full", low=100, high=220, default=165)
    melt_pa_s: Band | None = band(
        "Viscosity of the fused plastic at 170 °C, as a timed shot found it; left out, typical",
        low=0.02, high=200, default=None,
    )  # fmt: skip
    mold_c: float | None = unmeasured(
        "Mold", low=0, high=150, typical=MOLD_C.ends, label="mold temperature",
        measure=MOLD_C.measure,
    )  # fmt: skip
    material: MoldMaterial = pick("Mold made of", default=MoldMaterial.ALUMINUM)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    @property
    def by_two_hands(self) -> bool:
        """Whether the usual push of two hands stands in."""
        return self.two_hands and self.push_n is None

    def check(self) -> None:
        """Refuse a mold as hot as the plastic."""
        if self.mold_c is not None and self.mold_c >= self.melt_c:
            raise BadInput("mold_c", self.mold_c, f"must be below the melt's {self.melt_c:g} °C")


@dataclass(frozen=True, slots=True, eq=False)
class Squeeze:
    """Pressure and plastic; each a draw. `growth_m_rs` is the skin over the root of time."""

    bore_m2: Array
    pressure_pa: Array
    viscosity_pa_s: Array
    growth_m_rs: Array

    def creep_mm(self, gap_mm: Array | float) -> Array:
        """How far the plastic creeps into a gap."""
        length = creep_m(
            gap_m=gap_mm / 1000,
            push_pa=self.pressure_pa,
            viscosity_pa_s=self.viscosity_pa_s,
            growth_m_rs=self.growth_m_rs,
        )
        return 1000 * length

    def gap_mm(self, length_mm: float) -> Array:
        """Gap into which it creeps so far: its length grows with the square of the gap."""
        tenth = 0.1
        return np.asarray(tenth * np.sqrt(length_mm / self.creep_mm(tenth)))

    def no_skin(self, name: str, gap_mm: Array | float) -> Iterable[str]:
        """A word where the mold is too warm to stop the creeping."""
        share = never_shuts(gap_mm / 1000, self.growth_m_rs)
        if share > 0:
            yield (
                f"{name}: in {share:.0%} of the cases the mold is too warm for a skin to shut the "
                "gap; half a minute of pushing stands in."
            )


def squeeze(draws: Draws, inputs: SqueezedInput) -> Squeeze:
    """The push and the plastic drawn."""
    v = drawn(draws, inputs)
    push_n = TWO_HANDS_N.drawn(draws) if inputs.by_two_hands else v["push_n"]
    melt_c = draws.known(inputs.melt_c)
    bore_m2 = np.pi * (v["bore_mm"] / 1000) ** 2 / 4
    cold = chill(draws, melt_c=melt_c, mold_c=v["mold_c"], material=inputs.material)
    return Squeeze(
        bore_m2=np.asarray(bore_m2),
        pressure_pa=np.asarray(push_n / bore_m2),
        viscosity_pa_s=viscosity_draws(draws, inputs.melt_pa_s, melt_c),
        growth_m_rs=cold.growth,
    )


def left_out_words(inputs: SqueezedInput, *, unused: tuple[str, ...] = ()) -> tuple[str, ...]:
    """Which typical values stand in for fields left out, the push of two hands among them."""
    if not inputs.by_two_hands:
        return left_out(inputs, unused=unused)
    return (*left_out(inputs, unused=(*unused, "push_n")), push_note(TWO_HANDS_N))


def melt_words(inputs: SqueezedInput) -> tuple[str, ...]:
    """What stands in for a viscosity left out."""
    return melt_note(inputs.melt_pa_s)
