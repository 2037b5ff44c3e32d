"""A look as it travels to the browser that draws it: numbers by name, then arrays of them.

What the picture of the bench is made of goes along as it is, so that both draw the same.
"""

from __future__ import annotations

import json
import math
import struct
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array
from pourwright.body.division import EDGE_MM, Division, Place
from pourwright.body.seen_skin import MARGIN
from pourwright.color.sheen import SHEEN_ANGLES_RAD
from pourwright.color.slab import ABSORB, SCATTER
from pourwright.forecast.picture.glint import EDGE_ON, KEPT_IN, mean_glint
from pourwright.forecast.picture.light import FULL_RISE, Around, Lighting, index_over
from pourwright.forecast.picture.picture_input import PictureInput
from pourwright.forecast.picture.scene import Plates, Scene
from pourwright.forecast.picture.shown import KNEE
from pourwright.forecast.picture.skin_light import (
    BEHIND,
    LEAST_LOST,
    LOBE_HIGH,
    LOBE_LOW,
    LOBE_WIDE_RAD,
    SPREAD_ANGLE,
    plate_share,
    turned,
)
from pourwright.spectrum.color_space import linear_rgb_of
from pourwright.spectrum.light import BANDS
from pourwright.web.slab_bytes import tables_of

MAGIC = b"PWL1"
_WORD = 4
# A dot of a picture on the graphics card holds four numbers: bands go in eights of them.
_ROW = 4 * -(-BANDS // 4)
# Flakes lie in rows of so many.
_PLATES_WIDE = 256
_NONE = -1

Floats = NDArray[np.float32]


@dataclass(frozen=True, slots=True)
class _Optics:
    numbers: dict[str, object]
    arrays: dict[str, Floats]


def packed(scene: Scene, asked: PictureInput, words: Mapping[str, object]) -> bytes:
    """Magic, length of the words, words in JSON filled up to four bytes, then the arrays in the
    order that the words name them, as little-endian float32. `words` go along as they are.
    """
    parts = (
        _Optics({**words, "eye": [math.radians(v) for v in asked.eye_deg()]}, {}),
        _layers(scene),
        _division(scene.division),
        _light(asked.lighting()),
        _plates(scene.plates),
    )
    numbers = {name: value for part in parts for name, value in part.numbers.items()}
    arrays = {name: value for part in parts for name, value in part.arrays.items()}
    told = json.dumps(numbers | {"arrays": {n: a.shape for n, a in arrays.items()}}).encode()
    filled = told + b" " * (-len(told) % _WORD)
    head = MAGIC + struct.pack("<I", len(filled))
    return b"".join([head, filled, *(a.astype("<f4").tobytes() for a in arrays.values())])


def _layers(scene: Scene) -> _Optics:
    rows = [v for layer in scene.layers for v in (layer.absorb_mm, layer.scatter_mm)]
    sheens = [
        _sheen(at, plate_share(layer, sheen), turned(sheen))
        for at, layer in enumerate(scene.layers)
        for sheen in layer.sheens
    ]
    none = np.zeros((1, _ROW + 4), np.float32)
    return _Optics(
        {
            "layerCount": len(scene.layers),
            "octavesLow": [SCATTER[0], ABSORB[0]],
            "sheenCount": len(sheens),
            "sheenAngles": len(SHEEN_ANGLES_RAD),
            "sheenStep": float(SHEEN_ANGLES_RAD[1]),
            "sheenSpread": SPREAD_ANGLE,
            "leastLost": LEAST_LOST,
            "lobe": [LOBE_LOW, LOBE_HIGH, LOBE_WIDE_RAD],
        },
        {"layers": _banded(np.stack(rows)), "sheens": np.concatenate(sheens) if sheens else none},
    )


def _sheen(layer: int, share: Array, by_angle: Array) -> Floats:
    """Its share of a layer's scattering, then its reflectance by angle over that straight on."""
    whose = np.full((1 + len(by_angle), 4), layer)
    return np.hstack([_banded(np.vstack([share, by_angle])), whose]).astype(np.float32)


def _division(division: Division) -> _Optics:
    at = division.places.index
    stack = [at(place) for place in division.stack]
    inner = {p: at(p) if division.holds(p) else _NONE for p in (Place.VEIN, Place.CORE)}
    profile = division.profile
    columns = (
        profile.mid_up_mm,
        profile.half_up_mm,
        profile.mid_across_mm,
        profile.half_across_mm,
    )
    return _Optics(
        {
            "up": division.up,
            "lineMm": division.line_mm,
            "lowLineMm": division.low_line_mm,
            "softMm": division.soft_mm,
            "edgeMm": EDGE_MM,
            "coreShare": division.core_share,
            "vein": [division.vein_mm, division.vein_thick_mm, division.vein_wide_mm],
            "veinAt": inner[Place.VEIN],
            "coreAt": inner[Place.CORE],
            "stackCount": len(stack),
            "stackAt": [*stack, 0, 0][:3],
            "stations": [float(profile.station_mm[0]), float(profile.station_mm[-1])],
        },
        {
            "waves": np.array(division.waves, np.float32).reshape(-1, 4),
            "profile": np.stack(columns, axis=1).reshape(1, -1).astype(np.float32),
        },
    )


def _light(lighting: Lighting) -> _Optics:
    diffuse, lying = lighting.diffuse, lighting.sheet is not None
    weights = np.vstack([linear_rgb_of(lighting.reflect).T, linear_rgb_of(lighting.through).T])
    sheet = np.zeros(BANDS) if lighting.sheet is None else lighting.sheet
    return _Optics(
        {
            "tables": tables_of(lighting.wet),
            "index": index_over(lighting.wet),
            "white": linear_rgb_of(lighting.reflect.sum(axis=0)).tolist(),
            "veil": linear_rgb_of(lighting.veil).tolist(),
            "beyond": linear_rgb_of(lighting.beyond).tolist(),
            "lying": int(lying),
            "fade": lighting.fade,
            "knee": KNEE,
            "margin": MARGIN,
            "fullRise": FULL_RISE,
            "glossBehind": BEHIND,
            "diffuse": [diffuse.level, diffuse.upward, diffuse.downward, diffuse.keyed],
            "keptIn": KEPT_IN,
            "edgeOn": EDGE_ON,
            "meanGlint": mean_glint(lighting.glinting, lighting.wet),
            **_around("room", lighting.around),
            **_around("glint", lighting.glinting),
        },
        {"weights": _banded(weights), "sheet": _banded(sheet[None])},
    )


def _around(name: str, around: Around) -> dict[str, list[float]]:
    return {
        f"{name}Light": [around.low, around.level, around.high, around.window],
        f"{name}Reach": [around.wide, around.tall, around.soft],
        f"{name}Axes": around.axes().ravel().tolist(),
    }


def _plates(plates: Plates) -> _Optics:
    count = len(plates.sort)
    if not count:
        return _Optics({"plateCount": 0}, {})
    arrays = {
        "spots": _rowed(plates.middle_mm, plates.size_mm),
        "tilts": _rowed(plates.normal, plates.turn_rad),
        "sorts": _rowed(*[plates.sort] * 4),
        "shows": _banded(plates.shows),
    }
    return _Optics({"plateCount": count}, arrays)


def _rowed(*columns: Array | NDArray[np.int64]) -> Floats:
    """One dot of four numbers to a flake, in rows."""
    dots = np.column_stack(columns)
    full = -len(dots) % _PLATES_WIDE
    return np.pad(dots, ((0, full), (0, 0))).reshape(-1, 4 * _PLATES_WIDE).astype(np.float32)


def _banded(rows: Array) -> Floats:
    """Spectra, filled up with dark to whole dots."""
    return np.pad(rows, ((0, 0), (0, _ROW - BANDS))).astype(np.float32)
