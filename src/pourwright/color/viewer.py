"""How any number of mixtures look at one thickness over one ground, fast."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.color import slab
from pourwright.color.layer import DEPTHS
from pourwright.color.octave import Single
from pourwright.color.slab import Placing
from pourwright.spectrum.color_space import lab_of
from pourwright.spectrum.light import BANDS, WEIGHTS, Light

View = tuple[float, np.float32, list[Single]]

# Beyond this many columns a band at a time stays within the processor's cache.
_FEW = 2000


@dataclass(frozen=True, slots=True)
class Flaked:
    """Flakes that lie in every mixture: faces in mm² to a mm³, and what they show, (31,)."""

    faces_per_mm: float
    faces_show: Array


class Viewer:
    """A thickness, a ground, a placing and lights; answers for columns of mixtures.

    `ground` is one reflectance or one to a band. Each band's ground is folded into a table once,
    so that a look costs one look-up a band, and four more where there are flakes.
    """

    def __init__(
        self,
        *,
        thick_mm: float,
        ground: Array | float,
        placing: Placing,
        lights: Sequence[Array] = (WEIGHTS[Light.D65],),
        flaked: Flaked | None = None,
    ) -> None:
        self.thick_mm, self.flaked = thick_mm, flaked
        self._views: list[View] = [(1.0, np.float32(thick_mm), _tables(ground, placing))]
        if flaked is not None:
            self._views = _with_flakes(self._views[0], thick_mm, placing, flaked)
        self.weights = np.concatenate([w.T for w in lights]).astype(np.float32)
        self.white: Single = np.concatenate([w.sum(axis=0) for w in lights]).astype(np.float32)

    def reflectances(self, absorb_mm: Single, scatter_mm: Single) -> Single:
        """Reflectances, (31, n), of mixtures with these coefficients per mm, (31, n) each."""
        found = np.zeros(absorb_mm.shape, np.float32)
        for share, thick_mm, tables in self._views:
            for bands, table in _runs(tables, absorb_mm.shape[1]):
                a, s = absorb_mm[bands] * thick_mm, scatter_mm[bands] * thick_mm
                seen = slab.places_of(a, s).of(table)
                found[bands] += np.float32(share) * seen.reshape(a.shape)
        return found

    def labs(self, reflectances: Single) -> Array:
        """L*a*b* of reflectances, (31, n): shape (lights, n, 3)."""
        seen: Single = (self.weights @ reflectances).T
        lights = range(0, len(self.white), 3)
        return np.stack([lab_of(seen[:, i : i + 3], self.white[i : i + 3]) for i in lights])

    def tables(self) -> Sequence[Single]:
        """Reflectance by band at every node of the fine grid, without flakes."""
        return self._views[0][2]


def _with_flakes(bare: View, thick_mm: float, placing: Placing, flaked: Flaked) -> list[View]:
    """What is seen between the flakes, and flakes at each of their depths."""
    cover = float(-np.expm1(-flaked.faces_per_mm * thick_mm / 2))
    buried = _tables(flaked.faces_show, placing.buried)
    found: list[View] = [(1 - cover, *bare[1:])]
    for node, share in DEPTHS:
        depth = -2 * np.log1p(-cover * node) / flaked.faces_per_mm
        found.append((cover * share, np.float32(depth), buried))
    return found


def _tables(ground: Array | float, placing: Placing) -> list[Single]:
    grounds = np.broadcast_to(np.asarray(ground, dtype=float), (BANDS,)).tolist()
    folded = {g: _folded(g, placing) for g in set(grounds)}
    return [folded[g] for g in grounds]


def _runs(tables: list[Single], columns: int) -> list[tuple[slice, Single]]:
    """Bands to look up together: all at once where few mixtures share one table."""
    if columns <= _FEW and all(t is tables[0] for t in tables):
        return [(slice(None), tables[0])]
    return [(slice(band, band + 1), table) for band, table in enumerate(tables)]


def _folded(ground: float, placing: Placing) -> Single:
    bare = slab.dense("back", placing)
    if placing is Placing.HAND:
        return bare
    gain, returned = slab.dense("ground gain", placing), slab.dense("returned", placing)
    return np.asarray(bare + gain * np.float32(ground) / (1 - returned * np.float32(ground)))
