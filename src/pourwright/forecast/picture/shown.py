"""From the light of every pixel to the codes of a screen."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.pixels import Pixels
from pourwright.body.seen_skin import SeenSkin
from pourwright.forecast.picture.glint import laid_over, seen_flakes, stamped
from pourwright.forecast.picture.light import Lighting
from pourwright.forecast.picture.scene import Scene
from pourwright.forecast.picture.skin_light import SkinLight, skin_light
from pourwright.spectrum.color_space import linear_rgb_of, screen_curve

# Brighter than this, brightness is pressed together, so that a glint keeps its shape.
KNEE = 0.9


@dataclass(frozen=True, slots=True, eq=False)
class Shown:
    """A picture: its codes, and what it was made of.

    `light` is the skin without flakes, by pixel of `skin`; `xyz` (n, 3), white at Y = 1, is with
    flakes, without gloss and background; `clipped` counts pixels whose color no screen can show.
    """

    pixels: Pixels
    skin: SeenSkin
    light: SkinLight
    xyz: Array
    clipped: int


def shown(scene: Scene, skin: SeenSkin, lighting: Lighting) -> Shown:
    """One look at a scene."""
    light = skin_light(scene, skin, lighting)
    pixel_at = np.full((skin.rows, skin.columns), -1)
    pixel_at[skin.row, skin.column] = np.arange(len(skin.row))
    xyz = light.body
    if len(scene.plates.sort):
        found = seen_flakes(scene, skin, lighting, pixel_at)
        xyz = laid_over(xyz, stamped(scene, skin, found, pixel_at))
    cover = skin.cover[:, None]
    whole = np.broadcast_to(lighting.beyond, (skin.rows, skin.columns, 3)).copy()
    whole[skin.row, skin.column] = cover * (xyz + light.gloss) + (1 - cover) * lighting.beyond
    clipped = int((linear_rgb_of(xyz) < -0.002).any(axis=1).sum())
    return Shown(coded(whole), skin, light, xyz, clipped)


def coded(xyz: Array) -> Pixels:
    """Screen codes of XYZ, white at Y = 1."""
    rgb = np.maximum(linear_rgb_of(xyz), 0)
    over = np.maximum(rgb - KNEE, 0) / (1 - KNEE)
    pressed = np.minimum(rgb, KNEE) + (1 - KNEE) * -np.expm1(-over)
    return Pixels(np.round(screen_curve(pressed) * 255).astype(np.uint8))
