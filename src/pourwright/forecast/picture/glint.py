"""Flakes in the picture: where each is seen, how bright it glints, and what it hides."""

from __future__ import annotations

import functools
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.columns import Index
from pourwright.body.seen_skin import SeenSkin
from pourwright.color import slab
from pourwright.color.slab import Placing
from pourwright.color.stack import even_slabs
from pourwright.forecast.picture.light import Around, Lighting, index_over
from pourwright.forecast.picture.scene import Scene
from pourwright.forecast.picture.skin_light import SLICES

# Of flakes one behind the other in a pixel, so many are seen.
DEEP = 3
# Seen more from the edge than this a flake is a line too thin to draw.
EDGE_ON = 0.06
# Of light that the face keeps in, this much finds its way to the eye in the end; estimate.
KEPT_IN = 0.5
_TILTS = 4000


@dataclass(frozen=True, slots=True, eq=False)
class SeenFlakes:
    """Flakes that an eye meets: which plates, XYZ of each, and the normals they turn to the eye."""

    which: Index
    normal: Array
    xyz: Array


@dataclass(frozen=True, slots=True, eq=False)
class Stamps:
    """Flakes over pixels of the skin: which pixel, share, XYZ, rank from the eye (0 first)."""

    pixel: Index
    cover: Array
    xyz: Array
    rank: Index


def seen_flakes(scene: Scene, skin: SeenSkin, lighting: Lighting, pixel_at: Index) -> SeenFlakes:
    """The color of every flake under the skin that the eye sees first.

    `pixel_at` is the index of a pixel of the skin by row and column, -1 beside the bait.
    """
    plates, axes = scene.plates, skin.eye.axes
    spot = plates.middle_mm @ axes.T
    row, column = (np.round(at).astype(int) for at in _place_of(skin, spot))
    under = _pixels(pixel_at, row, column)
    depth = np.where(under >= 0, (skin.near_mm[under] @ axes[2]) - spot[:, 2], -1.0)
    which = np.flatnonzero((under >= 0) & (depth >= 0))
    under, depth = under[which], depth[which]
    normal = plates.normal[which] @ axes.T
    normal = normal * np.where(normal[:, 2] < 0, -1.0, 1.0)[:, None]
    near = skin.near_mm[under]
    haze, mirrored = _over(
        scene, near, plates.middle_mm[which], depth, plates.sort[which], lighting
    )
    bright = glints(normal, skin.normal[under] @ axes.T, lighting)[:, None]
    lit = lighting.diffuse.on(skin.normal[under] @ axes.T, lighting.around.axes()[2])[:, None]
    xyz = ((haze + mirrored * bright) @ lighting.reflect) * lit + lighting.veil
    return SeenFlakes(which, normal, np.asarray(xyz))


def _place_of(skin: SeenSkin, spot: Array) -> tuple[Array, Array]:
    """Row and column of places in the eye's frame, whole in the middle of a pixel."""
    origin = skin.near_mm[0] @ skin.eye.axes.T
    column = skin.column[0] + (spot[:, 0] - origin[0]) / skin.pixel_mm
    return skin.row[0] - (spot[:, 1] - origin[1]) / skin.pixel_mm, column


def _pixels(pixel_at: Index, row: Index, column: Index) -> Index:
    """Pixels of the skin by row and column, -1 beside the bait and beside the picture."""
    rows, columns = pixel_at.shape
    inside = (row >= 0) & (row < rows) & (column >= 0) & (column < columns)
    found = np.full(row.shape, -1)
    found[inside] = pixel_at[row[inside], column[inside]]
    return found


def _over(
    scene: Scene, near: Array, middle: Array, depth: Array, sort: Index, lighting: Lighting
) -> tuple[Array, Array]:
    """Light from the plastic above flakes, and of the flakes through it, (n, 31) each."""
    weights = np.stack(
        [
            scene.division.weights(near + (at + 0.5) / SLICES * (middle - near))
            for at in range(SLICES)
        ],
        axis=1,
    ).astype(np.float32)
    absorb, scatter = even_slabs(scene.stacked, weights, depth.astype(np.float32))
    placing = Placing.WATER_CONTACT if lighting.wet else Placing.CONTACT
    deep = absorb.astype(float), scatter.astype(float)
    haze = slab.reflectance(*deep, np.array(0.0), placing)
    return haze, slab.reflectance(*deep, scene.plates.shows[sort], placing) - haze


def glints(normal: Array, skin_normal: Array, lighting: Lighting) -> Array:
    """Brightness of mirrors at these tilts under skins with those normals, 1 on average."""
    around = lighting.glinting
    return np.asarray(
        _mirrored(normal, skin_normal, around, lighting.wet) / mean_glint(around, lighting.wet)
    )


def _mirrored(normal: Array, skin_normal: Array, around: Around, wet: bool) -> Array:
    """What is mirrored, with the skin bending the light on its way in and out."""
    ratio = 1 / index_over(wet)
    eye = np.broadcast_to([0.0, 0.0, -1.0], normal.shape)
    inward, _ = _bent(eye, skin_normal, ratio)
    turned = inward - 2 * (inward * normal).sum(axis=1, keepdims=True) * normal
    outward, out = _bent(turned, -skin_normal, 1 / ratio)
    return np.where(out, around.bright(outward), KEPT_IN)


def _bent(way: Array, normal: Array, ratio: float) -> tuple[Array, Array]:
    """Snell's law for unit ways that meet a face with that normal; false where none gets out."""
    across = -(way * normal).sum(axis=1)
    root = 1 - ratio**2 * (1 - across**2)
    out = (root > 0) & (across > 0)
    bent = ratio * way + (ratio * across - np.sqrt(np.maximum(root, 0)))[:, None] * normal
    return np.where(out[:, None], bent, way), out


@functools.cache
def mean_glint(around: Around, wet: bool) -> float:
    """Mean brightness of mirrors at random tilts, seen as a plate's shadow weighs them."""
    rng = np.random.Generator(np.random.PCG64(1))
    normal = rng.normal(size=(_TILTS, 3))
    normal /= np.linalg.norm(normal, axis=1, keepdims=True)
    normal[:, 2] = np.abs(normal[:, 2])
    facing = np.broadcast_to([0.0, 0.0, 1.0], normal.shape)
    return float(np.average(_mirrored(normal, facing, around, wet), weights=normal[:, 2]))


def stamped(scene: Scene, skin: SeenSkin, found: SeenFlakes, pixel_at: Index) -> Stamps:
    """Every pixel of the bait that flakes cover."""
    plates, axes = scene.plates, skin.eye.axes
    spot = plates.middle_mm[found.which] @ axes.T
    row, column = _place_of(skin, spot)
    half = plates.size_mm[found.which] / 2 / skin.pixel_mm
    pieces = []
    reach = np.ceil(half * 2 / np.sqrt(3) + 0.5).astype(int)
    for far in np.unique(reach):
        chosen = np.flatnonzero((reach == far) & (found.normal[:, 2] > EDGE_ON))
        turn = plates.turn_rad[found.which[chosen]]
        pieces.append(
            _stamp(
                far, chosen, column[chosen], row[chosen], half[chosen], found.normal[chosen], turn
            )
        )
    if not pieces:
        return Stamps(np.zeros(0, int), np.zeros(0), np.zeros((0, 3)), np.zeros(0, int))
    flake, rows, columns, cover = (np.concatenate(p) for p in zip(*pieces, strict=True))
    pixel = _pixels(pixel_at, rows, columns)
    return _sorted(pixel, cover, flake, spot[:, 2], found.xyz)


def _stamp(
    far: int, chosen: Index, column: Array, row: Array, half: Array, normal: Array, turn: Array
) -> tuple[Index, Index, Index, Array]:
    """Which pixels some hexagons cover, and how much of each."""
    step = np.arange(-far, far + 1)
    down, across = (v.ravel() for v in np.meshgrid(step, step, indexing="ij"))
    columns = np.round(column).astype(int)[:, None] + across
    rows = np.round(row).astype(int)[:, None] + down
    x, y = columns - column[:, None], row[:, None] - rows
    first, second = _in_plane(normal, turn)
    det = first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0]
    u = (second[:, 1, None] * x - second[:, 0, None] * y) / det[:, None]
    v = (first[:, 0, None] * y - first[:, 1, None] * x) / det[:, None]
    slant = np.sqrt(3) / 2 * u
    out = np.maximum(np.abs(v), np.maximum(np.abs(slant + v / 2), np.abs(slant - v / 2)))
    # A tilted hexagon is narrower than a pixel sooner than it is far.
    soft = np.clip((half[:, None] - out) * normal[:, 2:] + 0.5, 0, 1)
    most = np.minimum(1.0, 2 * half * normal[:, 2])[:, None]
    flake, at = np.nonzero(soft * most > 0.02)
    return chosen[flake], rows[flake, at], columns[flake, at], (soft * most)[flake, at]


def _in_plane(normal: Array, turn: Array) -> tuple[Array, Array]:
    """Two unit ways in the plane of each plate."""
    helper = np.where(np.abs(normal[:, :1]) < 0.8, [[1.0, 0.0, 0.0]], [[0.0, 1.0, 0.0]])
    one = np.cross(normal, helper)
    one /= np.linalg.norm(one, axis=1, keepdims=True)
    two = np.cross(normal, one)
    c, s = np.cos(turn)[:, None], np.sin(turn)[:, None]
    return c * one + s * two, c * two - s * one


def _sorted(pixel: Index, cover: Array, flake: Index, height: Array, xyz: Array) -> Stamps:
    """Of the flakes over one pixel the nearest few."""
    held = pixel >= 0
    pixel, cover, flake = pixel[held], cover[held], flake[held]
    order = np.lexsort((-height[flake], pixel))
    pixel, cover, flake = pixel[order], cover[order], flake[order]
    rank = np.arange(len(pixel)) - np.searchsorted(pixel, pixel)
    few = rank < DEEP
    return Stamps(pixel[few], cover[few], xyz[flake[few]], rank[few])


def laid_over(body: Array, stamps: Stamps) -> Array:
    """XYZ of pixels with the flakes over them; of one rank no two share a pixel."""
    found = body.copy()
    for rank in reversed(range(DEEP)):
        at = stamps.rank == rank
        where, share = stamps.pixel[at], stamps.cover[at, None]
        found[where] = found[where] * (1 - share) + stamps.xyz[at] * share
    return np.asarray(found)
