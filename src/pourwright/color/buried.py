"""How flakes look at their depth in a plastic."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.layer import Mixture, Sight, sight
from pourwright.color.slab import Placing, reflectance
from pourwright.spectrum.color_space import lab_of
from pourwright.spectrum.difference import delta_e00
from pourwright.spectrum.light import white_xyz, xyz_of

_SLICES = 8


@dataclass(frozen=True, slots=True, eq=False)
class Bath:
    """A plastic with flakes in it, as thick as the bait, over its ground.

    `mixed` by draw; `faces_show` what the flakes show within it, (31,).
    """

    mixed: Mixture
    faces_show: Array
    thick_mm: float
    ground: float
    placing: Placing

    def whole(self) -> Sight:
        """The look from so far that flakes and plastic run together."""
        return sight(self.mixed, thick_mm=self.thick_mm, ground=self.ground, placing=self.placing)

    def plain(self) -> Array:
        """Reflectance without the flakes, (draws, 31)."""
        return self._seen(self.thick_mm, np.array(self.ground), self.placing)

    def flake(self, depth_mm: float) -> Array:
        """Reflectance of a flake under so much plastic, (draws, 31)."""
        return self._seen(depth_mm, self.faces_show, self.placing.buried)

    def difference(self, depth_mm: float) -> Array:
        """CIEDE2000 between a flake at that depth and the plastic beside it, (draws,)."""
        one, other = (lab_of(xyz_of(r), white_xyz()) for r in (self.flake(depth_mm), self.plain()))
        return delta_e00(one, other)

    def contrast(self, depth_mm: float) -> Array:
        """What is left at that depth of a flake's difference in light, (draws,); 1 at the skin.

        The difference is the length of that of XYZ over white's; it may rise above 1 where a flake
        hides the ground.
        """
        return self._light(depth_mm) / np.maximum(self._light(0.0), 1e-9)

    def signal(self, depths_mm: Array) -> Array:
        """Share of all that the flakes add to the look from down to each depth, (depths, draws).

        Depths rise in even steps to the whole thickness. What is met in a slice is the cover it
        adds, weighed by the difference in light at its middle.
        """
        cuts = np.linspace(0, self.thick_mm, _SLICES * len(depths_mm) + 1)
        unmet = np.exp(-self.mixed.faces_per_mm * cuts[:, None] / 2)
        middles = (cuts[1:] + cuts[:-1]) / 2
        added = (unmet[:-1] - unmet[1:]) * np.stack([self._light(z) for z in middles])
        total = np.cumsum(added, axis=0)
        return np.asarray(total[_SLICES - 1 :: _SLICES] / np.maximum(total[-1], 1e-12))

    def _light(self, depth_mm: float) -> Array:
        apart = xyz_of(self.flake(depth_mm) - self.plain()) / white_xyz()
        return np.asarray(np.linalg.norm(apart, axis=-1))

    def _seen(self, depth_mm: float, below: Array, how: Placing) -> Array:
        absorb, scatter = self.mixed.absorb_mm * depth_mm, self.mixed.scatter_mm * depth_mm
        return reflectance(absorb, scatter, below, how)
