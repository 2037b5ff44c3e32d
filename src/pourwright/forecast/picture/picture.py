"""The picture of a look in a bait."""

from __future__ import annotations

import functools
import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.field import out
from pourwright.base.pixels import Pixels
from pourwright.base.source import estimate, memory, published
from pourwright.body.body_input import BodyInput
from pourwright.body.division import Division
from pourwright.body.division_of import Build, build_of, divided
from pourwright.body.loft import Solid
from pourwright.body.seen_skin import SeenSkin, eye_at, seen_skin
from pourwright.body.split import Split
from pourwright.color.predict import UNCALIBRATED
from pourwright.forecast.picture.optics import USUAL_FLAKE_MM, layer_optics
from pourwright.forecast.picture.picture_input import LookInput, PictureInput
from pourwright.forecast.picture.plates import strewn
from pourwright.forecast.picture.scene import Scene
from pourwright.forecast.picture.shown import Shown, shown
from pourwright.spectrum.color_space import lab_of
from pourwright.water.ask import drawn_water, water_notes

# A skin that faces the eye this straight is a flat patch.
_FLAT = 0.9
# A pixel belongs to a layer that is this much of its near slice.
_MOSTLY = 0.9


@dataclass(frozen=True, slots=True)
class Patch:
    """The mean color of a layer where its skin faces the eye."""

    place: str = out("The layer")
    lab: tuple[float, ...] = out("Mean L*a*b* against a white sheet in its place, gloss left out")
    thick_mm: float = out("Mean thickness of the bait there")
    reflectance: tuple[float, ...] = out("Mean share of light sent back, by band, flakes left out")
    transmittance: tuple[float, ...] = out("Mean share let through, by band, flakes left out")


@dataclass(frozen=True, slots=True)
class PictureAnswer:
    """A look in a bait."""

    picture: Pixels = out("The picture: a PNG file in base64")
    rows: int = out("Pixels from top to bottom")
    columns: int = out("Pixels from left to right")
    pixel_mm: float = out("Side of a pixel on the bait")
    patches: tuple[Patch, ...] = out("Layers that show a flat patch")
    flakes: int = out("Flakes in the bait that are drawn")
    off_screen_share: float = out("Share of its pixels too pure for a screen, 0 to 1")
    notes: tuple[str, ...] = out("What was assumed, what the picture leaves out")


@calculation(
    "look.picture",
    purpose="the picture of a look in a bait",
    sources=(
        published(
            "Foley, van Dam, Feiner and Hughes, Computer Graphics, 2nd ed. (1990), section 3.6: "
            "a pixel between two polygons belongs to one of them"
        ),
        memory("Kubelka, JOSA 44 (1954) 330: layers one behind the other"),
        published("Born and Wolf, Principles of Optics, 7th ed. (1999), section 1.5.2: Fresnel"),
        estimate("radiative transfer of the even slab with the same two fluxes, as color.predict"),
        estimate("room, window, lay of flakes and pearl plates: chosen by eye"),
    ),
    example={
        "family": {"kind": "paddle_tail"},
        "layers": [
            {
                "place": "back", "share": 0.4,
                "doses": [
                    {"name": "green", "per_100g": 6, "drop_mass_g": 0.036,
                     "colorant": {"kind": "dye", "color_hex": "#4f6b2a"}},
                    {"name": "copper flake", "per_100g": 0.3, "measure": "grams",
                     "colorant": {"kind": "flake", "color_hex": "#b0713a", "film_um": 25,
                                  "size_mm": 0.6}},
                ],
            },
            {
                "place": "belly", "share": 0.6,
                "doses": [
                    {"name": "white", "per_100g": 4, "drop_mass_g": 0.036,
                     "colorant": {"kind": "opaque", "color_hex": "#f2f0e8"}},
                ],
            },
        ],
        "pixels": 320,
    },
)  # fmt: skip
def look_picture(inputs: PictureInput) -> PictureAnswer:
    """A look in the hand, before a sheet, typical values throughout.

    The same input gives the same picture. A layer that faces the eye shows the color that
    color.predict names for its thickness in the hand.
    Raises: BadInput for a body or layers that do not go together; NoAnswer for shares no bait has.
    """
    scene = scene_of(inputs)
    skin = _skin(inputs.body(), inputs.eye_deg(), inputs.up(), inputs.pixels, inputs.rows())
    lighting = inputs.lighting()
    found = shown(scene, skin, lighting)
    return PictureAnswer(
        picture=found.pixels,
        rows=skin.rows,
        columns=skin.columns,
        pixel_mm=skin.pixel_mm,
        patches=tuple(patches(scene, found, lighting.reflect.sum(axis=0) + lighting.veil)),
        flakes=len(scene.plates.sort),
        off_screen_share=found.clipped / len(skin.row),
        notes=(*inputs.body_notes(), *_notes(inputs, scene, found)),
    )


def scene_of(inputs: LookInput) -> Scene:
    """Everything there is to see, from any side and in any light."""
    body = inputs.body()
    solid = _solid(body)
    shares = tuple(layer.share for layer in inputs.layers)
    division = _division(body, inputs.up(), inputs.places(), inputs.split, shares, inputs.seed)
    layers = tuple(layer_optics(x.place.value, x.doses, inputs.plastic) for x in inputs.layers)
    plates, left_out = strewn(solid, division, layers, inputs.seed)
    return Scene(solid, division, layers, plates, left_out)


# While a slider moves, only the recipe changes: what the shape alone decides is kept at hand.
@functools.lru_cache(maxsize=8)
def _solid(body: BodyInput) -> Solid:
    return body.solid()


@functools.lru_cache(maxsize=8)
def _build(body: BodyInput, up: int) -> Build:
    return build_of(_solid(body), up)


@functools.lru_cache(maxsize=16)
def _division(
    body: BodyInput,
    up: int,
    places: tuple[str, ...],
    split: Split,
    shares: tuple[float, ...],
    seed: int,
) -> Division:
    return divided(_build(body, up), places, split, shares=shares, seed=seed)


@functools.lru_cache(maxsize=8)
def _skin(
    body: BodyInput, eye_deg: tuple[float, float], up: int, columns: int, rows: int
) -> SeenSkin:
    tilt, turn = (math.radians(v) for v in eye_deg)
    eye = eye_at(up, turn_rad=turn, tilt_rad=tilt)
    return seen_skin(_solid(body), eye, columns=columns, rows=rows)


def patches(scene: Scene, found: Shown, white: Array) -> Iterable[Patch]:
    """Where each layer shows its face flat."""
    near = scene.division.weights(found.skin.near_mm)
    whole = (found.skin.cover == 1) & (facing(found.skin) > _FLAT)
    for at, layer in enumerate(scene.layers):
        flat = whole & (near[:, at] > _MOSTLY)
        if flat.any():
            yield Patch(
                place=layer.place,
                lab=_plain(lab_of(found.xyz[flat].mean(axis=0), white)),
                thick_mm=float(found.skin.thick_mm[flat].mean()),
                reflectance=_plain(found.light.back[flat].mean(axis=0)),
                transmittance=_plain(found.light.through[flat].mean(axis=0)),
            )


def facing(skin: SeenSkin) -> Array:
    """How straight each pixel's skin faces the eye, 1 straight on."""
    return np.asarray(skin.normal @ skin.eye.toward)


def _plain(values: Array) -> tuple[float, ...]:
    return tuple(float(v) for v in values)


def _notes(inputs: LookInput, scene: Scene, found: Shown) -> Iterable[str]:
    yield (
        "typical values, no range: for the range of a layer's color ask color.predict; room, "
        "window and lay of flake and pearl are estimates chosen by eye"
    )
    yield (
        "the way through the plastic is taken straight, and no light creeps sideways, so thin "
        "edges look lighter in the hand"
    )
    if isinstance(inputs, PictureInput) and inputs.water is not None:
        yield "the camera opens for the water and gets used to its color, so it looks well lit"
        asked = inputs.water.water
        yield from water_notes(asked, drawn_water(Draws(count=1), asked))
    if inputs.split.tells(inputs.places()):
        yield "shares stand only for layers that no line, vein or core tells"
    doses = [dose for layer in inputs.layers for dose in layer.doses]
    if any(d.colorant and not d.colorant.measured for d in doses):
        yield UNCALIBRATED
    plain = [d.name for d in doses if d.colorant is None]
    if plain:
        yield f"counted as clear, for want of a color: {', '.join(dict.fromkeys(plain))}"
    unsized = [d.name for d in doses if d.colorant and getattr(d.colorant, "size_mm", "") is None]
    if unsized:
        yield f"{', '.join(unsized)}: size left out, {USUAL_FLAKE_MM:g} mm stands in"
    if scene.left_out:
        yield (
            f"{scene.left_out:,} more flakes are too many to draw one by one; those drawn are "
            "larger, so that they cover as much"
        )
    if found.clipped:
        yield "some of its color is too pure for a screen; the nearest a screen can show stands in"
