"""How much flake makes that look."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.field import out
from pourwright.base.source import PRACTICE, estimate, memory, published
from pourwright.color import spoon, texture
from pourwright.color.buried import Bath
from pourwright.color.close_up import CloseUp, close_up
from pourwright.color.colorant import Stuff
from pourwright.color.cover_entry import CoverInput
from pourwright.color.face import PLASTIC_FACE
from pourwright.color.kinds.flake import FILM_G_ML, face_mm2_per_g, faces_per_mm
from pourwright.color.lab import screen_color
from pourwright.color.layer import mixture
from pourwright.color.predict import UNCALIBRATED
from pourwright.matter.additive import DENSITY_G_ML
from pourwright.spectrum.color_space import lab_of, xyz_of_hex
from pourwright.spectrum.difference import in_words
from pourwright.spectrum.light import BANDS, white_xyz, xyz_of
from pourwright.spectrum.smooth import smooth_spectrum

_DEPTH_STEPS = 4
_SILVER = "#b8b8b8"
_WINDOW_MM = 10.0
_MOST_PLATES = 300
# Fainter than this a flake is lost in its plastic, however large; common practice, no source.
_SEEN_DE00 = 2.0
# Beyond this cover no plastic shows between the flakes; estimate.
_CLOSED = 0.9


@dataclass(frozen=True, slots=True)
class CoverAnswer:
    """What the flake does."""

    flakes_per_gram: Band = out("Flakes in a gram")
    flakes_each: Band = out("Flakes in one bait")
    cover: Band = out("Share of the sight that flakes hide, 0 to 1, tilted at random")
    depths_mm: tuple[float, ...] = out("Depths under the skin")
    cover_by_depth: tuple[Band, ...] = out("Share hidden by the flakes down to each depth")
    contrast_by_depth: tuple[Band, ...] = out(
        "What is left at each depth of a flake's difference in light from the plastic, 1 at the "
        "skin; above 1 where it hides the ground"
    )
    flake_de00_by_depth: tuple[Band, ...] = out(
        "CIEDE2000 between a flake at each depth and the plastic beside it"
    )
    signal_by_depth: tuple[Band, ...] = out(
        "Share of all that the flakes add to the look that comes from down to each depth"
    )
    flake_de00: Band = out("CIEDE2000 close up between a flake at the skin and the plastic")
    whole_lab: tuple[float, ...] = out("Typical L*a*b* from afar, flakes and plastic run together")
    whole_hex: str = out("The same for a screen")
    plain_hex: str = out("The plastic without flake, for a screen")
    flake_hex: str = out("A flake at the skin, for a screen")
    in_sight_per_cm2: Band = out("Flakes to a cm² of the bait that no other flake hides")
    merging_m: float = out("From how far single flakes are too small for a sharp eye")
    points: bool = out("Whether single flakes show as points at arm's length")
    texture: str = out("What one sees close up and at arm's length, in words")
    close_up: CloseUp = out("A typical piece of the bait as shapes to draw")
    flake_g: float = out("Flake for the batch")
    teaspoons: Band = out("The same in level teaspoons of this flake")
    spoons: str = out("The same in whole spoons of 1, 1/2, 1/4 and 1/8 tsp, typical")
    notes: tuple[str, ...] = out("What was assumed, what is left out")


@calculation(
    "flake.cover",
    purpose="how much flake for that look",
    sources=(
        estimate("Boolean model of flat plates at random tilt (Cauchy's mean shadow)"),
        estimate("radiative transfer above each flake, as in color.predict"),
        memory("polyester film 1.38 g/cm³, polymer handbooks"),
        memory("one minute of arc as the acuity of a sharp eye"),
        published("NIST SP 811 (2008), appendix B.8: teaspoon 4.928922 mL"),
        PRACTICE,
    ),
    example={
        "size_mm": 0.4, "film_um": 25, "grams_per_100g": 0.3, "thick_mm": 10,
        "color_hex": "#b0713a", "plastic_g": 200, "spoon_g": 2.8,
        "doses": [
            {"name": "green", "per_100g": 4, "drop_mass_g": 0.036,
             "colorant": {"kind": "dye", "color_hex": "#4f6b2a"}},
        ],
    },
)  # fmt: skip
def flake_cover(inputs: CoverInput) -> CoverAnswer:
    """Count, cover and look of flake; the cover follows its grams and film, not its size."""
    draws = Draws(seed=inputs.seed)
    own = drawn(draws, inputs)
    density = draws.of("density of the flake", DENSITY_G_ML["flake"])
    per_gram = flakes_per_gram(inputs.size_mm, own["film_um"], density)
    faces = faces_per_mm(draws.known(inputs.grams_per_100g), own["film_um"], density)
    bath = _bath(draws, inputs, faces)
    depths = np.linspace(0, inputs.thick_mm, _DEPTH_STEPS + 1)[1:]
    covers = [-np.expm1(-faces * d / 2) for d in depths]
    at_skin, whole = bath.difference(0.0), bath.whole().reflectance[0]
    batch_g = inputs.grams_per_100g * inputs.plastic_g / 100
    teaspoons = batch_g / own["spoon_g"]
    in_sight = 100 * covers[-1] / (texture.hexagon_mm2(inputs.size_mm) / 2)
    return CoverAnswer(
        flakes_per_gram=draws.band(per_gram),
        flakes_each=draws.band(per_gram * inputs.grams_per_100g / 100 * inputs.bait_mass_g),
        cover=draws.band(covers[-1]),
        depths_mm=tuple(float(d) for d in depths),
        cover_by_depth=tuple(draws.band(c) for c in covers),
        contrast_by_depth=tuple(draws.band(bath.contrast(float(d))) for d in depths),
        flake_de00_by_depth=tuple(draws.band(bath.difference(float(d))) for d in depths),
        signal_by_depth=tuple(draws.band(s) for s in bath.signal(depths)),
        flake_de00=draws.band(at_skin),
        whole_lab=tuple(float(v) for v in lab_of(xyz_of(whole), white_xyz())),
        whole_hex=screen_color(whole),
        plain_hex=screen_color(bath.plain()[0]),
        flake_hex=screen_color(bath.flake(0.0)[0]),
        in_sight_per_cm2=draws.band(in_sight),
        merging_m=texture.merging_distance_m(inputs.size_mm),
        points=_points(inputs, float(at_skin[0])),
        texture=_in_words(inputs, float(covers[-1][0]), float(at_skin[0]), float(in_sight[0])),
        close_up=close_up(bath, _pattern(inputs, float(faces[0]))),
        flake_g=batch_g,
        teaspoons=draws.band(teaspoons),
        spoons=spoon.in_words(spoon.spooned(float(teaspoons[0]), spoon.KITCHEN_SPOONS)),
        notes=(
            *_cautions(inputs),
            *width_notes(draws, {"cover": covers[-1], "flake against plastic": at_skin}),
        ),
    )


def flakes_per_gram(size_mm: float, film_um: Array, film_g_ml: Array | float = FILM_G_ML) -> Array:
    """Regular hexagons in a gram: face area of the gram over √3/2 times size squared."""
    return np.asarray(face_mm2_per_g(film_um, film_g_ml) / texture.hexagon_mm2(size_mm))


def _bath(draws: Draws, inputs: CoverInput, faces: Array) -> Bath:
    raw = inputs.plastic.flux(inputs.plastic.drawn(draws))
    tints = [d.stuff(d.drawn(draws, f"{i} ")) for i, d in enumerate(inputs.doses)]
    shown = smooth_spectrum(xyz_of_hex(inputs.color_hex or _SILVER))
    # The color entered is what flakes show in a bait; through its face no more than 96 % returns.
    inside = np.minimum(PLASTIC_FACE[False].inside(shown), 1)
    nothing = np.zeros((len(faces), BANDS))
    mixed = mixture(raw, [*tints, Stuff(nothing, nothing, faces, inside)])
    return Bath(mixed, inside, inputs.thick_mm, inputs.ground(), inputs.placing)


def _pattern(inputs: CoverInput, faces: float) -> texture.Plates:
    return texture.plates(
        per_mm3=faces / texture.hexagon_mm2(inputs.size_mm),
        size_mm=inputs.size_mm,
        thick_mm=inputs.thick_mm,
        seed=inputs.seed,
        widest_mm=_WINDOW_MM,
        most=_MOST_PLATES,
    )


def _points(inputs: CoverInput, at_skin: float) -> bool:
    parted = texture.merging_distance_m(inputs.size_mm) >= inputs.arm_m
    return bool(inputs.grams_per_100g) and parted and at_skin >= _SEEN_DE00


def _in_words(inputs: CoverInput, cover: float, at_skin: float, in_sight: float) -> str:
    if not inputs.grams_per_100g:
        return "no flake in it"
    close = (
        f"close up about {_rough(in_sight)} flakes to a cm²; one beside the plastic: "
        f"{in_words(at_skin)}"
    )
    if at_skin < _SEEN_DE00:
        return f"{close}; from arm's length they are lost in it"
    if cover > _CLOSED:
        return f"{close}; they close up, and hardly any plastic shows between them"
    if _points(inputs, at_skin):
        return f"{close}; from {inputs.arm_m:g} m they still show as points"
    return f"{close}; from {inputs.arm_m:g} m they run together into one color"


def _rough(count: float) -> str:
    """A count to two figures."""
    return f"{float(f'{count:.2g}'):,g}"


def _cautions(inputs: CoverInput) -> Iterable[str]:
    yield "flake is dull in the forecast: no glint, and it neither curls nor sinks"
    yield "for the range of the color from afar, ask color.predict"
    if not inputs.color_hex:
        yield f"color_hex was left out: silver ({_SILVER}) stands in"
    if not inputs.doses:
        yield "no tint was given: a tint dims the flakes the more, the deeper they lie"
    if any(d.colorant and not d.colorant.measured for d in inputs.doses):
        yield UNCALIBRATED
    plain = [d.name for d in inputs.doses if d.colorant is None]
    if plain:
        yield f"counted as clear, for want of a color: {', '.join(plain)}"
    yield from dict.fromkeys(
        d.colorant.limit for d in inputs.doses if d.colorant and d.colorant.limit
    )
    yield from left_out(inputs)
    for dose in inputs.doses:
        yield from (*dose.left_out(), *dose.color_left_out())
    if inputs.plastic.constants is None:
        yield from left_out(inputs.plastic)
