"""What each cell of a reflectance table adds to a range.

A field is the largest value in the cell, or of its negative where the least is wanted. Cell 0
lies below the table, where reflectance stays as at its edge; the last one beyond it, where both
numbers are brought down together onto the far edges.
"""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.octave import Single, axis
from pourwright.color.slab import ABSORB, SCATTER

FIELDS = 4
ALONG_FIELDS = 2
_ABSORB, _SCATTER = axis(ABSORB), axis(SCATTER)


def cells_of(table: Single) -> Array:
    """Reflectance and its slope with absorption: (cells, cells, 4)."""
    nodes = table.astype(float)
    value = _pair(_pair(_signed(_held(nodes)), 0), 1)
    slopes = np.diff(nodes, axis=0) / np.diff(_ABSORB)[:, None]
    slopes = np.pad(slopes, ((1, 1), (0, 0)))
    fall = _pair(_signed(np.pad(slopes, ((0, 0), (1, 1)), mode="edge")), 1)
    found = np.concatenate([value, fall], axis=-1)
    found[-1] = _beyond(nodes[-1], _SCATTER, _ABSORB[-1])[:, [0, 1, 4, 4]]
    found[:, -1] = _beyond(nodes[:, -1], _ABSORB, _SCATTER[-1])[:, [0, 1, 2, 3]]
    found[-1, -1] = np.maximum(found[-1, -2], found[-2, -1])
    return found


def rows_of(table: Single) -> Array:
    """Slope with scattering at each row of nodes, one more at either end: (rows, cells, 2)."""
    nodes = table.astype(float)
    slopes = np.pad(np.diff(nodes, axis=1) / np.diff(_SCATTER), ((1, 1), (1, 1)))
    slopes[0] = slopes[1]
    found = _signed(slopes)
    beyond = _beyond(nodes[-1], _SCATTER, _ABSORB[-1])[:, [2, 3]]
    away = _beyond(nodes[:, -1], _ABSORB, _SCATTER[-1])[:, [4, 4]]
    found[-1] = beyond
    found[:, -1] = np.append(away, away[-1:], axis=0)
    found[-1, -1] = np.maximum(beyond[-1], away[-1])
    return found


def _beyond(edge: Array, along: Array, far: float) -> Array:
    """Reflectance, slope along the far edge, and the size of the slope away from it: (cells, 5).

    The smaller number is brought down to anywhere below itself.
    """
    slope = np.diff(edge) / np.diff(along)
    away = abs(slope) * along[1:] / far
    inner = np.concatenate(
        [_pair(_signed(edge), 0), np.maximum(_signed(slope), 0), away[:, None]], axis=-1
    )
    first = [-edge[0], edge[0], 0, 0, 0]
    return np.asarray(np.maximum.accumulate(np.concatenate([[first], inner, inner[-1:]])))


def _held(nodes: Array) -> Array:
    return np.pad(nodes, 1, mode="edge")


def _signed(values: Array) -> Array:
    return np.stack([-values, values], axis=-1)


def _pair(fields: Array, along: int) -> Array:
    """Larger of the two sides of each cell."""
    ahead = np.roll(fields, -1, axis=along)
    return np.take(np.maximum(fields, ahead), range(fields.shape[along] - 1), axis=along)
