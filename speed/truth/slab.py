"""Transport of light through a plane slab: discrete ordinates, solved by symmetric eigenvectors.

The sum s and the difference d of the light going down and up obey s' = -X d and d' = -Y s with
symmetric matrices (the square-root form of Nakajima and Tanaka, J. Quant. Spectrosc. Radiat.
Transfer 35 (1986) 13; delta-M scaling of Wiscombe, J. Atmos. Sci. 34 (1977) 1408). Solutions even
and odd about the middle turn s at the faces into d there without a growing exponential.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from pourwright.base.draws import Array
from speed.truth.ordinates import Face, Ordinates, ordinates

_CHUNK = 2048
_THINNEST = 1e-7


class Ports(NamedTuple):
    """How a slab joins the light at its front to a Lambertian backing, one value an evaluation.

    `alone`: straight beam in, hemisphere back out in front, mirror of the front face left out;
    `down`: beam in, flux to the backing; `up`: flux from the backing, out in front; `under`: flux
    from the backing, sent back to it. Without a backing `down` is the total transmittance.
    """

    alone: Array
    down: Array
    up: Array
    under: Array

    def over(self, backing: Array) -> Array:
        """Reflectance over a Lambertian backing of reflectance 0 to 1."""
        return np.asarray(self.alone + self.down * backing * self.up / (1 - self.under * backing))


def ports(
    depth: Array,
    albedo: Array,
    moments: Array,
    *,
    index: float,
    contact: bool,
    nodes: Ordinates | None = None,
) -> Ports:
    """Ports of many slabs at once.

    Parameters: `depth` (absorption plus scattering) times thickness, 0 and up; `albedo` 0 to 1;
    `moments` of the phase function on a last axis, degree 0 up to the count of moments kept,
    that one included (the last sets the forward peak); `index` 1 to 2; `contact` says that the
    backing is bonded to the plastic, otherwise there is air between.
    """
    held = nodes or ordinates(index)
    bottom = held.bonded if contact else held.air
    deep, bright = depth.ravel(), albedo.ravel()
    phase = moments.reshape(depth.size, -1)
    cuts = [slice(start, start + _CHUNK) for start in range(0, depth.size, _CHUNK)]
    pieces = [_chunk(deep[cut], bright[cut], phase[cut], held, bottom) for cut in cuts]
    joined = (np.concatenate(port).reshape(depth.shape) for port in zip(*pieces, strict=True))
    return Ports(*joined)


def outward(
    depth: Array, albedo: Array, moments: Array, *, nodes: Ordinates, bottom: Face, source: Array
) -> Array:
    """Light that falls on the faces from within (slabs, 2 directions, sources): front, then back.

    `source` (2 directions, sources) is what enters through front and back, on the scale of
    `Ordinates.flux`; the arrays of the slabs have one axis here.
    """
    even, odd = _faces_join(*_without_peak(depth, albedo, moments), nodes)
    mirror = np.concatenate([nodes.air.inside, bottom.inside])
    same, other = (even + odd) / 2, (even - odd) / 2
    system = np.concatenate(
        [np.concatenate([same, other], axis=2), np.concatenate([other, same], axis=2)], axis=1
    )
    diagonal = np.arange(len(mirror))
    system[:, diagonal, diagonal] += (1 - mirror) / (1 + mirror)
    both = np.linalg.solve(system, 2 * source / (1 + mirror[:, None]))
    return np.asarray((both - source) / (1 + mirror[:, None]))


def _chunk(
    depth: Array, albedo: Array, moments: Array, nodes: Ordinates, bottom: Face
) -> tuple[Array, Array, Array, Array]:
    count = len(nodes.cosine)
    source = np.zeros((2 * count, 2))
    source[count - 1, 0] = nodes.beam
    source[count:, 1] = bottom.enter
    out = outward(depth, albedo, moments, nodes=nodes, bottom=bottom, source=source)
    front, back = nodes.air.leave @ out[:, :count], bottom.leave @ out[:, count:]
    return front[:, 0], back[:, 0], front[:, 1], bottom.outside + back[:, 1]


def _without_peak(depth: Array, albedo: Array, moments: Array) -> tuple[Array, Array]:
    """Delta-M: the forward peak counts as light that went straight on."""
    peak = moments[:, -1]
    kept = 1 - albedo * peak
    scattered = (albedo / kept)[:, None] * (moments[:, :-1] - peak[:, None])
    return np.maximum(depth * kept, _THINNEST), scattered


def _faces_join(depth: Array, scattered: Array, nodes: Ordinates) -> tuple[Array, Array]:
    """Matrices that turn s at both faces into -d there: even and odd solutions."""
    x = _transport(scattered[:, 1::2], nodes.odd, nodes.cosine)
    y = _transport(scattered[:, 0::2], nodes.even, nodes.cosine)
    root = np.linalg.cholesky(x)
    lifted = np.swapaxes(root, 1, 2)
    square, modes = np.linalg.eigh(lifted @ y @ root)
    rate = np.sqrt(np.maximum(square, 1e-14))
    bend = np.tanh(rate * depth[:, None] / 2)
    shape = np.linalg.solve(lifted, modes)
    turned = np.swapaxes(shape, 1, 2)
    return (shape * (rate * bend)[:, None]) @ turned, (shape * (rate / bend)[:, None]) @ turned


def _transport(scattered: Array, products: Array, cosine: Array) -> Array:
    count = len(cosine)
    mixed = (scattered @ products.reshape(len(products), -1)).reshape(-1, count, count)
    return np.asarray((np.eye(count) - mixed) / np.sqrt(np.outer(cosine, cosine)))
