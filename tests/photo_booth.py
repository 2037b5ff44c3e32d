"""Photos of made-up pucks beside a made-up target, taken by cameras that are not ours.

Nothing of the code under test is used: sensitivities are bell curves drawn at random, lights and
the eye come from an open color-science library, light falls off as plane and bowl in its
logarithm, and the picture is seen at an angle, with shot noise, in 8 bits.
"""

from __future__ import annotations

import functools
import warnings
from dataclasses import dataclass, field

import numpy as np

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import colour
    from colour.quality.cfi2017 import load_TCS_CIE2017

NM = np.arange(400.0, 701.0, 10.0)
_GRID = colour.SpectralShape(400, 700, 10)
LIGHTS = ("D65", "LED-B3", "A")


@functools.cache
def power(light: str) -> np.ndarray:
    return np.asarray(colour.SDS_ILLUMINANTS[light].copy().align(_GRID).values)


@functools.cache
def eye() -> np.ndarray:
    return np.asarray(
        colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(_GRID).values
    )


def true_lab(reflectance: np.ndarray) -> np.ndarray:
    """L*a*b* in daylight."""
    weights = power("D65")[:, None] * eye()
    white = weights.sum(axis=0)
    return np.asarray(
        colour.XYZ_to_Lab(reflectance @ weights / white[1], colour.XYZ_to_xy(white / white[1]))
    )


@functools.cache
def library_samples() -> np.ndarray:
    """The 99 evaluation samples of ANSI/IES TM-30, reflectance on 31 bands."""
    samples = load_TCS_CIE2017(colour.SpectralShape(380, 780, 5))
    return np.asarray(samples.copy().align(_GRID).values).T


def dyed_pucks(count: int, seed: int) -> np.ndarray:
    """Clear plastic over white card with one to three dyes: bell-shaped bands of absorption."""
    draw = np.random.default_rng(seed)
    depth = np.zeros((count, len(NM)))
    for _ in range(3):
        middle = draw.uniform(400, 680, (count, 1))
        wide = draw.uniform(25, 70, (count, 1))
        strong = draw.exponential(0.6, (count, 1)) * (draw.uniform(size=(count, 1)) < 0.7)
        depth += strong * np.exp(-(((NM - middle) / wide) ** 2))
    return 0.03 + 0.82 * np.exp(-depth - draw.uniform(0, 0.4, (count, 1)))


@dataclass(frozen=True)
class Camera:
    """Bell-shaped sensitivities, white balance, a maker's matrix to sRGB, and a curve."""

    sensitivity: np.ndarray
    matrix: np.ndarray = field(default_factory=lambda: np.eye(3))
    contrast: float = 0.0
    exposure: float = 0.8
    noise: float = 0.02

    def linear(self, reflectance: np.ndarray, light: str) -> np.ndarray:
        """Linear color after white balance on a perfect white, white at 1."""
        lit = power(light)[:, None] * self.sensitivity
        return np.asarray((reflectance @ lit / lit.sum(axis=0)) @ self.matrix)

    def codes(self, linear: np.ndarray, draw: np.random.Generator) -> np.ndarray:
        exposed = linear * self.exposure
        grain = draw.normal(size=linear.shape)
        exposed = exposed + self.noise * grain * np.sqrt(np.maximum(exposed, 0) * 0.2 + 0.0005)
        held = np.clip(exposed, 0, 1)
        curve = np.where(held <= 0.0031308, 12.92 * held, 1.055 * held ** (1 / 2.4) - 0.055)
        steep = curve + self.contrast * np.sin(2 * np.pi * curve) * -1 / (2 * np.pi)
        return np.round(np.clip(steep, 0, 1) * 255).astype(np.uint8)


def camera(seed: int, *, phone: bool = False, exposure: float = 0.8) -> Camera:
    """A camera drawn at random; a phone also turns its colors toward sRGB, with a curve."""
    draw = np.random.default_rng(seed)
    middle = np.array([600, 540, 460]) + draw.normal(0, 8, 3)
    wide = np.array([40, 42, 32]) * draw.uniform(0.85, 1.2, 3)
    bells = np.exp(-(((NM[:, None] - middle) / wide) ** 2))
    bells += np.array([0.06, 0.03, 0.02]) * np.exp(-(((NM[:, None] - middle[::-1]) / 60) ** 2))
    if not phone:
        return Camera(bells, exposure=exposure)
    plain = Camera(bells)
    train = dyed_pucks(200, 77)
    seen = plain.linear(train, "D65")
    weights = power("D65")[:, None] * eye()
    xyz = train @ weights / weights[:, 1].sum()
    wanted = xyz @ colour.RGB_COLOURSPACES["sRGB"].matrix_XYZ_to_RGB.T
    matrix = np.linalg.lstsq(seen, wanted, rcond=None)[0]
    matrix = matrix / matrix.sum(axis=0)
    return Camera(bells, matrix, contrast=draw.uniform(0, 0.25), exposure=exposure)


@dataclass(frozen=True)
class Scene:
    """What lies on the table, in patch widths; the target's first patch begins at (0, 0)."""

    target: np.ndarray
    columns: int
    pucks: np.ndarray
    card: float = 0.86
    gap: float = 0.12
    puck_radius: float = 0.55

    @property
    def rows(self) -> int:
        return -(-len(self.target) // self.columns)

    def puck_places(self) -> np.ndarray:
        """To the right of the target, column after column."""
        per = max(self.rows // 2 * 2, 2)
        at = np.arange(len(self.pucks))
        return np.stack([self.columns + 1.0 + 1.5 * (at // per), 0.3 + 1.35 * (at % per)], axis=1)

    def card_places(self) -> np.ndarray:
        """Bare card above, below and beyond."""
        far = self.puck_places()[:, 0].max() + 1.0 if len(self.pucks) else self.columns + 1.0
        low = max(self.rows, 4) + 1.2
        return np.array([[0.5, -0.7], [far, -0.8], [far, low], [0.5, low], [far / 2, low]])


@dataclass(frozen=True)
class Shot:
    """How it is photographed; `fall` is the log of light's loss across the target, right, down,
    and the bowl's."""

    light: str = "D65"
    fall: tuple[float, float, float] = (0.0, 0.0, 0.0)
    tilt: float = 0.0
    turn_deg: float = 0.0
    scale_px: float = 32.0
    seed: int = 0


@dataclass(frozen=True)
class Photo:
    """A photo with where things are in it, in pixels."""

    codes: np.ndarray
    corners: np.ndarray
    pucks: np.ndarray
    card: np.ndarray
    radius: float


def taken(scene: Scene, camera: Camera, shot: Shot) -> Photo:
    draw = np.random.default_rng(shot.seed)
    there = _view(scene, shot)
    all_places = np.concatenate([scene.card_places(), scene.puck_places(), [[-1, -1.5]]])
    seen = _through(there, np.concatenate([all_places, _ring(scene)]))
    width, height = (int(v) for v in np.ceil(seen.max(axis=0) + 20))
    down, right = np.mgrid[0:height, 0:width]
    pixel = np.stack([right.ravel() + 0.5, down.ravel() + 0.5], axis=1)
    at = _through(np.linalg.inv(there), pixel)
    ink = np.concatenate(
        [scene.target, scene.pucks, np.full((1, len(NM)), scene.card), np.full((1, len(NM)), 0.04)]
    )
    linear = camera.linear(ink, shot.light)[_labels(scene, at)]
    middle = at / scene.columns - np.array([0.5, 0.33])
    bowl = (middle**2).sum(axis=1)
    light = np.exp(-(middle @ np.array(shot.fall[:2]) + shot.fall[2] * bowl))
    codes = camera.codes(linear * light[:, None], draw).reshape(height, width, 3)
    corner = np.array(
        [[0, 0], [scene.columns, 0], [scene.columns, scene.rows], [0, scene.rows]], dtype=float
    )
    inset = np.array([[1, 1], [-1, 1], [-1, -1], [1, -1]]) * scene.gap / 2
    return Photo(
        codes,
        _through(there, corner + inset),
        _through(there, scene.puck_places()),
        _through(there, scene.card_places()),
        0.35 * scene.puck_radius / 0.55 * shot.scale_px * (1 - 0.5 * shot.tilt),
    )


def _labels(scene: Scene, at: np.ndarray) -> np.ndarray:
    count = len(scene.target)
    label = np.full(len(at), count + len(scene.pucks))
    cell = np.floor(at).astype(int)
    inside = (at.min(axis=1) >= 0) & (cell[:, 0] < scene.columns) & (cell[:, 1] < scene.rows)
    frame = (
        (at.min(axis=1) >= -0.2) & (at[:, 0] < scene.columns + 0.2) & (at[:, 1] < scene.rows + 0.2)
    )
    label[frame] = count + len(scene.pucks) + 1
    edge = np.abs(at - cell - 0.5).max(axis=1)
    on = inside & (edge < 0.5 - scene.gap / 2)
    index = cell[:, 1] * scene.columns + cell[:, 0]
    label[on] = index[on]
    for i, place in enumerate(scene.puck_places()):
        label[np.hypot(*(at - place).T) < scene.puck_radius] = count + i
    return label


def _ring(scene: Scene) -> np.ndarray:
    places = scene.puck_places() if len(scene.pucks) else np.zeros((0, 2))
    wide = np.array([[1, 1], [-1, 1], [1, -1], [-1, -1]])
    return (places[:, None] + 0.8 * wide).reshape(-1, 2)


def _view(scene: Scene, shot: Shot) -> np.ndarray:
    """Table to pixels: turned, tilted away at the top, and moved into the picture."""
    angle = np.radians(shot.turn_deg)
    turn = np.array([[np.cos(angle), -np.sin(angle), 0], [np.sin(angle), np.cos(angle), 0],
                     [0, 0, 1]])  # fmt: skip
    far = np.concatenate([scene.card_places(), scene.puck_places()]).max(axis=0).max()
    away = np.array([[1, 0, 0], [0, 1, 0], [shot.tilt / far / 2, shot.tilt / far, 1]])
    view = np.diag([shot.scale_px, shot.scale_px, 1]) @ away @ turn
    box = _through(view, np.concatenate([scene.card_places(), scene.puck_places(), _ring(scene),
                                         [[-1, -1.5]]]))  # fmt: skip
    move = np.eye(3)
    move[:2, 2] = 20 - box.min(axis=0)
    return np.asarray(move @ view)


def _through(view: np.ndarray, at: np.ndarray) -> np.ndarray:
    seen = np.concatenate([at, np.ones((len(at), 1))], axis=1) @ view.T
    return np.asarray(seen[:, :2] / seen[:, 2:])
