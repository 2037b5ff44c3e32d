"""A bait at the moment its gate shuts: what has set, what still flows, what will sink in."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.errors import NoAnswer
from pourwright.base.units import in_both
from pourwright.fill.gate import Gate, gate_seconds
from pourwright.fill.skin import Chill, chill
from pourwright.matter.flow import EXPANSION_PER_K
from pourwright.matter.mold_material import MoldMaterial
from pourwright.physics.conduction import Solid
from pourwright.physics.cooled_section import middle_seconds, profile_left

LONGEST_S = 1800.0
_EDGE = np.linspace(0.0, 1.0, 401)
# What sinks in, gathered in one groove half as wide as a rod or one dish over a slab, each two
# thirds of its depth on average: depth against thickness times share. An estimate.
_DEPTH = {Solid.CYLINDER: np.pi / 4 / (2 / 3 * 1 / 2), Solid.SLAB: 1 / (2 / 3)}
GATHERED = Doubt(
    "how far the dent is gathered in one place", Band(0.5, 1.0, 1.7),
    "measure the dent of one bait that was held a known time", logarithmic=True,
)  # fmt: skip


@dataclass(frozen=True, slots=True, eq=False)
class Standing:
    """A full mold, ready to be changed one thing at a time; arrays are draws."""

    draws: Draws
    gates: tuple[Gate, ...]
    thickest_mm: float
    solid: Solid
    melt_c: Array
    mold_c: Array
    material: MoldMaterial
    gate_larger_mm: float = 0.0

    def chill(self) -> Chill:
        """Its plastic against its mold."""
        return chill(self.draws, melt_c=self.melt_c, mold_c=self.mold_c, material=self.material)


@dataclass(frozen=True, slots=True, eq=False)
class Held:
    """What was held so long; each a draw."""

    hold_s: Array
    first_s: Array
    last_s: Array
    body_sets_s: Array
    mean_c: Array
    soft_share: Array
    sink_share: Array
    dent_mm: Array

    def shrink_share(self, room_c: float) -> Array:
        """Share of its volume that the body loses on the way to the room."""
        return np.asarray(EXPANSION_PER_K * np.maximum(self.mean_c - room_c, 0.0))


def held(of: Standing) -> Held:
    """Hold the push until every gate has set, or the body itself if that is sooner.

    Raises: NoAnswer where a typical gate never sets.
    """
    cold = of.chill()
    shut = np.stack([gate_seconds(g, cold, larger_mm=of.gate_larger_mm) for g in of.gates])
    if not np.isfinite(shut[:, 0]).all():
        raise NoAnswer(
            f"against a mold at {in_both(float(of.mold_c[0]))} the plastic stays above the "
            f"{in_both(float(cold.sets_c[0]))} at which it sets: cool the mold first"
        )
    shut = np.minimum(shut, LONGEST_S)
    bare_m = of.thickest_mm / 1000
    thick_m = cold.filmed_m(bare_m)
    sets = middle_seconds(of.solid, thick_m=thick_m, alpha_m2_s=cold.alpha_m2_s, left=cold.left)
    hold = np.minimum(shut.max(axis=0), sets)
    fourier = cold.alpha_m2_s * hold / (thick_m / 2) ** 2
    kept = _Profile.of(of.solid, fourier, bare_m / thick_m)
    soft, sink = kept.sunk(cold)
    gathered = of.draws.of(GATHERED.label, GATHERED)
    return Held(
        hold_s=hold,
        first_s=shut.min(axis=0),
        last_s=shut.max(axis=0),
        body_sets_s=np.minimum(sets, LONGEST_S),
        mean_c=cold.face_c + (cold.melt_c - cold.face_c) * kept.mean,
        soft_share=soft,
        sink_share=sink,
        dent_mm=np.asarray(_DEPTH[of.solid] * of.thickest_mm * sink * gathered),
    )


@dataclass(frozen=True, slots=True, eq=False)
class _Profile:
    """Share of its excess that each ring of a body still has, and its share of the volume."""

    left: Array
    volume: Array

    @classmethod
    def of(cls, solid: Solid, fourier: Array, inside: Array) -> _Profile:
        """The body is the inner part of a section that its film makes thicker."""
        left = profile_left(solid, fourier, (_EDGE[1:] + _EDGE[:-1]) / 2)
        edge = np.minimum(_EDGE / inside[:, None], 1.0)
        return cls(left, np.diff(edge ** (2 if solid is Solid.CYLINDER else 1)))

    @property
    def mean(self) -> Array:
        return np.asarray((self.left * self.volume).sum(axis=1))

    def sunk(self, cold: Chill) -> tuple[Array, Array]:
        """Share that still flows, and by how much of the whole it shrinks more than its shell."""
        flows = self.left > cold.left[:, None]
        soft = (flows * self.volume).sum(axis=1)
        inside = (self.left * flows * self.volume).sum(axis=1) / np.maximum(soft, 1e-9)
        shell = (self.left * ~flows * self.volume).sum(axis=1) / np.maximum(1 - soft, 1e-9)
        apart_k = (cold.melt_c - cold.face_c) * (inside - shell)
        return soft, np.where(soft > 0, EXPANSION_PER_K * soft * apart_k, 0.0)
