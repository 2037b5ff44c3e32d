"""What the skin of a bait sends to the eye: color, pearl, gloss, and what shines through."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.seen_skin import SeenSkin
from pourwright.color import slab, two_flux
from pourwright.color.face import mirrored_share
from pourwright.color.octave import Single
from pourwright.color.sheen import SHEEN_ANGLES_RAD, Sheen
from pourwright.color.slab import Placing
from pourwright.color.stack import even_slabs
from pourwright.forecast.picture.light import Lighting, index_over
from pourwright.forecast.picture.scene import LayerOptics, Scene

# Slices that a way through the bait is cut into.
SLICES = 8
# How pearl plates spread about the skin: brightness off the mirror angle, on it, and how far off
# it fades, in radians; estimates, chosen by eye.
LOBE_LOW, LOBE_HIGH, LOBE_WIDE_RAD = 0.62, 1.7, 0.42
# Tilted this way and that, plates are met less steeply on average than the skin is; estimate.
SPREAD_ANGLE = 0.75
# A way so far back mirrors what lies behind the bait alone.
BEHIND = 0.5
# No slab sends more back.
LEAST_LOST = 0.999


@dataclass(frozen=True, slots=True, eq=False)
class SkinLight:
    """By pixel: reflectance and transmittance (n, 31), XYZ without and of the gloss (n, 3)."""

    back: Single
    through: Single
    body: Array
    gloss: Array


def skin_light(scene: Scene, skin: SeenSkin, lighting: Lighting) -> SkinLight:
    """Light of every pixel of the bait, flakes left out."""
    weights = slice_weights(scene, skin)
    absorb, scatter = even_slabs(scene.stacked, weights, skin.thick_mm.astype(np.float32))
    placing = Placing.WATER if lighting.wet else Placing.HAND
    places = slab.places_of(absorb, scatter)
    back = places.of(slab.dense("back", placing)).reshape(absorb.shape)
    through = places.of(slab.dense("through", placing)).reshape(absorb.shape)
    behind = through
    if lighting.sheet is not None:
        gain = places.of(slab.dense("ground gain", placing)).reshape(absorb.shape)
        returned = places.of(slab.dense("returned", placing)).reshape(absorb.shape)
        behind = gain / (1 - returned * lighting.sheet.astype(np.float32))
    normals = skin.normal @ skin.eye.axes.T
    facing = np.clip(normals[:, 2], 0, 1)
    lit = lighting.diffuse.on(normals, lighting.around.axes()[2])
    shown = _with_pearl(back, scene.layers, weights[:, 0], normals, lighting)
    seen_through = (1 - lighting.fade * (1 - facing) ** 2)[:, None]
    body = (shown @ lighting.reflect) * lit[:, None] + (behind @ lighting.through) * seen_through
    return SkinLight(back, through, body + lighting.veil, _gloss(normals, lighting))


def slice_weights(scene: Scene, skin: SeenSkin) -> Single:
    """Share of each layer in each slice from the near end, (n, slices, layers)."""
    count = len(skin.near_mm)
    found = np.zeros((count, SLICES, len(scene.layers)), np.float32)
    for at in range(SLICES):
        share = (at + 0.5) / SLICES
        found[:, at] = scene.division.weights(skin.near_mm + share * (skin.far_mm - skin.near_mm))
    return found


def _gloss(normals: Array, lighting: Lighting) -> Array:
    """What lies around, mirrored in the face; a steep face mirrors what lies behind the bait."""
    facing = np.clip(normals[:, 2], 0, 1)
    share = mirrored_share(facing, index_over(lighting.wet))
    mirrored = 2 * facing[:, None] * normals - [0, 0, 1]
    white = lighting.reflect.sum(axis=0)
    back = np.clip(-mirrored[:, 2:] / BEHIND, 0, 1)
    seen = (1 - back) * lighting.around.bright(mirrored)[:, None] * white + back * lighting.beyond
    return np.asarray(share[:, None] * seen)


def _with_pearl(
    back: Single, layers: tuple[LayerOptics, ...], near: Single, normals: Array, lighting: Lighting
) -> Array:
    """Reflectance with its pearl turned: the plates' part of what comes back is no even glow.

    Plates along the skin mirror the light toward the eye where the skin lies between the two, and
    their color is that of the angle at which the eye meets them. Scattering is what is scaled; of a
    pile of plates reflectance follows as R = u / (1 + u).
    """
    if not any(layer.sheens for layer in layers):
        return np.asarray(back, float)
    factor = np.ones(back.shape)
    lobe, place = lobe_of(normals, lighting), _place(normals[:, 2], lighting)
    for at, layer in enumerate(layers):
        for sheen in layer.sheens:
            moved = _angled(sheen, place) * lobe[:, None] - 1
            factor = factor + near[:, at, None] * plate_share(layer, sheen) * moved
    held = np.minimum(back, LEAST_LOST)
    scattered = held / (1 - held) * np.maximum(factor, 0)
    return np.asarray(scattered / (1 + scattered))


def lobe_of(normals: Array, lighting: Lighting) -> Array:
    """Brightness of plates that lie about a skin, 1 where it faces the eye."""
    key = lighting.around.axes()[2]
    half = key + np.array([0.0, 0.0, 1.0])
    half /= np.linalg.norm(half)
    return _lobe(normals @ half) / _lobe(half[2:])


def _lobe(cosine: Array) -> Array:
    off = np.arccos(np.clip(cosine, -1, 1))
    return np.asarray(LOBE_LOW + (LOBE_HIGH - LOBE_LOW) * np.exp(-((off / LOBE_WIDE_RAD) ** 2)))


def plate_share(layer: LayerOptics, sheen: Sheen) -> Array:
    """Share of a layer's scattering that its plates make, (31,)."""
    plates = sheen.plates_per_mm * sheen.reflect[0] / np.maximum(1 - sheen.reflect[0], 1e-3)
    _, scatter = two_flux.from_transport(layer.absorb_mm, layer.scatter_mm)
    return np.asarray(np.clip(plates / np.maximum(scatter, 1e-9), 0, 1))


def _place(facing: Array, lighting: Lighting) -> Array:
    """Where an angle of sight lies among the sheen's angles."""
    outside = np.sqrt(1 - np.clip(facing, 0, 1) ** 2)
    inside = SPREAD_ANGLE * np.arcsin(outside / index_over(lighting.wet))
    step = SHEEN_ANGLES_RAD[1] - SHEEN_ANGLES_RAD[0]
    return np.asarray(np.clip(inside / step, 0, len(SHEEN_ANGLES_RAD) - 1))


def _angled(sheen: Sheen, place: Array) -> Array:
    """A plate's reflectance at an angle over that straight on, (n, 31)."""
    low = np.minimum(place.astype(int), len(SHEEN_ANGLES_RAD) - 2)
    part = (place - low)[:, None]
    by_angle = turned(sheen)
    return np.asarray((1 - part) * by_angle[low] + part * by_angle[low + 1])


def turned(sheen: Sheen) -> Array:
    """A plate's reflectance at each of the sheen's angles over that straight on, (13, 31)."""
    return np.asarray(sheen.reflect / np.maximum(sheen.reflect[0], 1e-3))
