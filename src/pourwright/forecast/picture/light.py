"""The light a bait is seen in: what its skin, its flakes and its background meet.

Directions are the eye's: to the right, upward, toward the eye. A white sheet that faces the eye
has brightness 1, so that a patch which faces the eye shows the color that `color.predict` names.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.face import PLASTIC_INDEX, WATER_INDEX

# So steep a way up or down meets the full brightness of either end; estimate.
FULL_RISE = 0.8


@dataclass(frozen=True, slots=True, kw_only=True)
class Around:
    """How bright everything around is, by direction.

    Upward it is `high`, downward `low`, `level` between them; a window of brightness `window`
    stands about `key`, so wide and so high as the tangents of half its angles say.
    """

    low: float
    level: float
    high: float
    window: float
    key: tuple[float, float, float]
    wide: float
    tall: float
    soft: float

    def bright(self, directions: Array) -> Array:
        """Brightness along unit directions, (n, 3)."""
        rise = directions[:, 1]
        end = np.where(rise > 0, self.high, self.low)
        sky = self.level + (end - self.level) * np.minimum(rise * rise / FULL_RISE**2, 1)
        return np.asarray(sky + self.window * self._in_window(directions))

    def axes(self) -> Array:
        """The window's right, its upward and the way to it, as rows."""
        key = np.array(self.key) / np.linalg.norm(self.key)
        right = np.cross([0.0, 1.0, 0.0], key)
        right /= np.linalg.norm(right)
        return np.stack([right, np.cross(key, right), key])

    def _in_window(self, directions: Array) -> Array:
        across, above, ahead = self.axes() @ directions.T
        far = np.maximum(ahead, 1e-3)
        inside = [
            np.clip((reach - np.abs(way / far)) / self.soft + 0.5, 0, 1)
            for reach, way in ((self.wide, across), (self.tall, above))
        ]
        return np.asarray(inside[0] * inside[1] * (ahead > 0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Diffuse:
    """Light on a skin by where it faces: level, more of it upward and downward, toward the key."""

    level: float
    upward: float
    downward: float
    keyed: float

    def on(self, normals: Array, key: Array) -> Array:
        """Light on skins with these unit normals, (n, 3); 1 on one that faces the eye."""
        up, toward_key = normals[:, 1], np.maximum(normals @ key, 0)
        at_eye = self.level + self.keyed * max(float(key[2]), 0)
        slope = np.where(up > 0, self.upward, -self.downward)
        lit = self.level + slope * up + self.keyed * toward_key
        return np.asarray(np.maximum(lit, 0) / at_eye)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Lighting:
    """How reflectance and transmittance become XYZ, white at Y = 1.

    `reflect` and `through` are (31, 3): of light sent back, and of what lies behind and shines
    through. `sheet` is the reflectance of the sheet the bait lies on, (31,), lit through the bait
    alone; none where what lies behind is far. `veil` is what the water before it adds, `beyond`
    what is seen beside the bait, (3,) each. The skin mirrors what lies `around`, flakes the same
    less sharply, since they curl a little: `glinting`. `wet` tells that water lies on the skin;
    `fade` is by how much a steep skin shows less of what lies behind.
    """

    reflect: Array
    through: Array
    sheet: Array | None
    veil: Array
    beyond: Array
    diffuse: Diffuse
    around: Around
    glinting: Around
    wet: bool
    fade: float


# A bright room with a window at the upper left; estimates, chosen by eye.
ROOM = Around(
    low=0.3,
    level=0.65,
    high=1.0,
    window=16.0,
    key=(-0.42, 0.62, 0.66),
    wide=0.20,
    tall=0.34,
    soft=0.05,
)
ROOM_DIFFUSE = Diffuse(level=0.66, upward=0.24, downward=-0.24, keyed=0.52)
CURL = 0.6
FADE = 0.75


def index_over(wet: bool) -> float:
    """Refractive index of the plastic over that of the water or the air on its skin."""
    return PLASTIC_INDEX / (WATER_INDEX if wet else 1.0)


def on_sheet(weights: Array, sheet: Array) -> Lighting:
    """Lying on a sheet of that reflectance, (31,); `weights` as for `before_sheet`."""
    lit = weights / 100
    return _in_room(lit, lit * sheet[:, None], sheet)


def before_sheet(weights: Array, sheet: Array, *, behind: float = 1.0) -> Lighting:
    """In the hand before a sheet.

    `weights` are XYZ weights of the light, white at Y = 100, (31, 3); `sheet` the reflectance of
    the sheet, (31,); `behind` how much brighter it is lit than the bait, 0 or more; the camera
    closes for a sheet that is lit brighter.
    """
    lit = weights / 100 / max(1.0, behind)
    return _in_room(lit, lit * sheet[:, None] * behind, None)


def _in_room(lit: Array, through: Array, sheet: Array | None) -> Lighting:
    return Lighting(
        reflect=lit,
        through=through,
        sheet=sheet,
        veil=np.zeros(3),
        beyond=through.sum(axis=0),
        diffuse=ROOM_DIFFUSE,
        around=ROOM,
        glinting=replace(ROOM, soft=CURL),
        wet=False,
        fade=FADE,
    )
