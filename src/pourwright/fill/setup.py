"""A push into a mold with everything drawn, ready to be changed one thing at a time."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn
from pourwright.base.band import Band
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.fill.air_way import Air, AirWay, air_in, open_air
from pourwright.fill.branch import BranchPart
from pourwright.fill.fill_input import FillInput, MoldToFill, Pushed
from pourwright.fill.march import Shot
from pourwright.fill.melt import viscosity_draws
from pourwright.fill.push import (
    Drive,
    Push,
    density_draws,
    force_draws,
    head,
    plunger,
)  # fmt: skip
from pourwright.fill.skin import chill
from pourwright.fill.slice import Chain, chain_of
from pourwright.matter.mold_material import MoldMaterial


@dataclass(frozen=True, slots=True, eq=False)
class Setup:
    """Mold, push and plastic; every array is a draw."""

    draws: Draws
    chain: Chain
    branches: tuple[BranchPart, ...]
    cavities: int
    material: MoldMaterial
    mold_c: Array
    air: AirWay
    push: Push
    force_n: Array
    bore_m: Array
    plunger_m_s: Array
    head_m: Array
    melt_c: Array
    melt_pa_s: Band | None

    def shot(self) -> Shot:
        """The push itself."""
        cold = chill(self.draws, melt_c=self.melt_c, mold_c=self.mold_c, material=self.material)
        return Shot(
            chain=self.chain,
            drive=self.drive(),
            viscosity_pa_s=viscosity_draws(self.draws, self.melt_pa_s, self.melt_c),
            chill=cold,
            air=self._air(),
        )

    def drive(self) -> Drive:
        """What pushes, and how fast it can."""
        if self.push is Push.POUR:
            mouth = np.pi * self.chain.half_width_m[0] * self.chain.half_thick_m[0]
            return head(
                head_m=self.head_m, density_kg_m3=density_draws(self.draws), mouth_m2=float(mouth)
            )
        return plunger(force_n=self.force_n, bore_m=self.bore_m, speed_m_s=self.plunger_m_s)

    def _air(self) -> Air:
        if self.push is Push.POUR:
            return open_air(self.draws)
        return air_in(self.draws, self.air, ends=float(self.chain.copies[-1]))


def setup_of(
    draws: Draws, mold: MoldToFill, push: Pushed, *, melt_c: Array, melt_pa_s: Band | None
) -> Setup:
    """A mold and a push drawn."""
    v = drawn(draws, mold) | drawn(draws, push)
    return Setup(
        draws=draws,
        chain=chain_of(mold.chain),
        branches=mold.branches,
        cavities=mold.cavities,
        material=mold.material,
        mold_c=v["mold_c"],
        air=mold.air,
        push=push.push,
        force_n=force_draws(draws, push.push, push.push_n),
        bore_m=v["bore_mm"] / 1000,
        plunger_m_s=v["plunger_m_s"],
        head_m=v["head_mm"] / 1000,
        melt_c=melt_c,
        melt_pa_s=melt_pa_s,
    )


def one_push(draws: Draws, inputs: FillInput) -> Setup:
    """The mold, push and plastic of one input."""
    off = melt_doubt(draws, inputs.melt_doubt_k)
    return setup_of(draws, inputs, inputs, melt_c=inputs.melt_c + off, melt_pa_s=inputs.melt_pa_s)


def melt_doubt(draws: Draws, doubt_k: float) -> Array:
    """How far the plastic is off what was read."""
    label = "temperature of the plastic at the push"
    measure = "read a stirred cup right before it is drawn, with a checked thermometer"
    return draws.of(label, Doubt(label, Band(-doubt_k, 0.0, doubt_k), measure))
