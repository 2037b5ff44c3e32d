"""The color of a pearl powder by angle, over dark and light, and held to the light."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.field import out
from pourwright.base.source import estimate, memory
from pourwright.color.colorant import tinting
from pourwright.color.film.grade import FilmColor, films_of
from pourwright.color.film.pile import pile_scatter, plates_per_mm
from pourwright.color.film.plate import mirrored
from pourwright.color.ground import GROUND, Backing
from pourwright.color.lab import LabBands, screen_of
from pourwright.color.layer import Mixture, mixture, sight
from pourwright.color.pearl.question import FilmInput
from pourwright.color.slab import Placing
from pourwright.matter import mica
from pourwright.matter.titania import ANATASE_SOURCE, RUTILE_SOURCE
from pourwright.spectrum.color_space import lab_of
from pourwright.spectrum.light import WAVELENGTHS_NM, white_xyz, xyz_of

_ANGLES_DEG = (0.0, 15.0, 30.0, 45.0, 60.0)
# A hue missed by more than this looks like another color; estimate.
_FAR_DEG = 10.0
_DENSE = "film_index was left out: a film without pores; pores need a thicker film for a color"
_CORE = (
    f"mica of {mica.CORE_NM.typical:g} nm (core_nm) is what powders at large have; thicker "
    "mica means fewer flakes in a gram"
)
_GLINT = (
    "flat colors leave out the glint; flakes are taken as clear, alike in film and free of edges, "
    "so real powder is a little grayer"
)
_AIR = (
    "angles count within the plastic; what enters or leaves a flat skin in air stays below "
    "{most:.0f} degrees there, and tilted flakes meet it at more"
)


@dataclass(frozen=True, slots=True)
class FilmFound:
    """A film thickness that shows the color asked for."""

    film_nm: float = out("Film on each face of a flake")
    lightness: float = out("L* of its flash, met straight on")
    a: float = out("a*, green to red")
    b: float = out("b*, blue to yellow")
    hue_miss_deg: float = out("How far its hue is from the one asked for")


@dataclass(frozen=True, slots=True)
class Flash:
    """What the flakes mirror at one angle."""

    angle_deg: float = out("Angle of incidence within the plastic")
    reflectance: tuple[float, ...] = out("Share of light one flake mirrors, 0 to 1")
    lightness: float = out("L* in daylight")
    a: float = out("a*, green to red")
    b: float = out("b*, blue to yellow")
    srgb_hex: str = out("For a screen")
    in_gamut: bool = out("Whether a screen can show it; where not, the nearest it can")


@dataclass(frozen=True, slots=True)
class FlatColor:
    """The powder in plastic as one color."""

    lab: LabBands = out("L*a*b* in daylight")
    srgb_hex: str = out("Typical color for a screen")


@dataclass(frozen=True, slots=True)
class FilmAnswer:
    """What the powder shows."""

    film_nm: float = out("Film on each face of a flake")
    films: tuple[FilmFound, ...] = out("Every film that shows the color asked for, thinnest first")
    wavelengths_nm: tuple[float, ...] = out("Wavelengths of the reflectance")
    by_angle: tuple[Flash, ...] = out("Angle by angle")
    plates_per_mm: Band = out("Flakes a straight way meets per mm that mirror as flat ones would")
    over_dark: FlatColor = out("Poured over dark")
    over_white: FlatColor = out("Poured over white")
    held_to_light: FlatColor = out("Light that comes through a slice in the hand")
    notes: tuple[str, ...] = out("What was assumed, what is left out, what would narrow it")


@calculation(
    "pearl.film",
    purpose="color of a pearl powder by angle",
    sources=(
        RUTILE_SOURCE,
        ANATASE_SOURCE,
        mica.INDEX.source,
        mica.CORE_NM.source,
        mica.QUALITY.source,
        mica.FILM_BY_COLOR.source,
        mica.FILM_BY_FIGURE.source,
        memory("Born and Wolf, Principles of Optics, section 1.6: characteristic matrix"),
        memory("G. G. Stokes, Proc. R. Soc. London 11 (1862) 545: pile of plates"),
        estimate("mica from half to one and a half times its thickness; flakes as clear mirrors"),
    ),
    example={"grade": "blue", "grams_per_100g": 0.3, "thick_mm": 5},
)
def pearl_film(inputs: FilmInput) -> FilmAnswer:
    """Interference in film, mica and film by angle, and flakes in plastic as a pile of plates.

    A color sold comes back at several thicknesses, of which the thinnest is taken. Reflectances 0
    to 1; angles within the plastic, 0 to 85 degrees.
    """
    draws = Draws(seed=inputs.seed)
    films = _films(inputs)
    film_nm = films[0].film_nm if inputs.film_nm is None else inputs.film_nm
    waves = np.array(inputs.wavelengths_nm or WAVELENGTHS_NM)
    plates, mixed = _mixed(draws, inputs, film_nm)
    flat = _flat(mixed, inputs.thick_mm)
    return FilmAnswer(
        film_nm=film_nm,
        films=tuple(FilmFound(f.film_nm, *f.lab, f.hue_miss_deg) for f in films),
        wavelengths_nm=tuple(float(w) for w in waves),
        by_angle=_flashes(inputs, film_nm, waves),
        plates_per_mm=draws.band(plates),
        over_dark=_color(draws, flat["over dark"]),
        over_white=_color(draws, flat["over white"]),
        held_to_light=_color(draws, flat["held to light"]),
        notes=(*_notes(inputs, films), *width_notes(draws, _spans(flat["over dark"]))),
    )


def _films(inputs: FilmInput) -> tuple[FilmColor, ...]:
    return () if inputs.film_nm is not None else films_of(inputs.plate(), inputs.hue_deg())


def _flashes(inputs: FilmInput, film_nm: float, waves: Array) -> tuple[Flash, ...]:
    angles = inputs.angles_deg or _ANGLES_DEG
    films, turned = np.array([film_nm]), np.radians(angles)
    asked = mirrored(inputs.plate(), films, turned, waves)[0]
    labs = _labs(mirrored(inputs.plate(), films, turned)[0])
    return tuple(
        _flash(angle, share, lab) for angle, share, lab in zip(angles, asked, labs, strict=True)
    )


def _flash(angle_deg: float, share: Array, lab: Array) -> Flash:
    light, a, b = (float(v) for v in lab)
    screen, inside = screen_of(lab)
    return Flash(angle_deg, tuple(float(r) for r in share), light, a, b, screen, inside)


def _mixed(draws: Draws, inputs: FilmInput, film_nm: float) -> tuple[Array, Mixture]:
    """Flakes per mm and the plastic with them in it, by draw."""
    off = (mica.FILM_BY_COLOR if inputs.film_nm is None else mica.FILM_BY_FIGURE).drawn(draws)
    quality = drawn(draws, inputs)["quality"]
    grams = draws.known(inputs.grams_per_100g)
    plates = quality * plates_per_mm(grams, inputs.plate().thick_nm(film_nm))
    scatter = pile_scatter(plates, mirrored(inputs.plate(), film_nm * off, np.zeros(1))[:, 0])
    raw = inputs.plastic.flux(inputs.plastic.drawn(draws))
    return plates, mixture(raw, [tinting(np.zeros_like(scatter), scatter)])


def _flat(mixed: Mixture, thick_mm: float) -> dict[str, Array]:
    """L*a*b* by draw of each way to look at it."""
    over = {
        name: sight(mixed, thick_mm=thick_mm, ground=GROUND[ground], placing=Placing.CONTACT)
        for name, ground in (("over dark", Backing.DARK), ("over white", Backing.WHITE))
    }
    held = sight(mixed, thick_mm=thick_mm, ground=0.0, placing=Placing.HAND)
    seen = {name: _labs(it.reflectance) for name, it in over.items()}
    return seen | {"held to light": _labs(held.transmittance)}


def _labs(spectra: Array) -> Array:
    return lab_of(xyz_of(spectra), white_xyz())


def _color(draws: Draws, lab: Array) -> FlatColor:
    return FlatColor(LabBands(*(draws.band(lab[:, i]) for i in range(3))), screen_of(lab[0])[0])


def _spans(lab: Array) -> dict[str, Array]:
    return {f"{name} over dark": lab[:, i] for i, name in enumerate(("L*", "a*", "b*"))}


def _notes(inputs: FilmInput, films: tuple[FilmColor, ...]) -> Iterable[str]:
    if inputs.color_hex and inputs.hue_deg() is None:
        yield f"{inputs.color_hex} is nearly gray and names no hue: taken as a silver"
    if len(films) > 1:
        others = ", ".join(f"{f.film_nm:g}" for f in films[1:])
        yield f"the same color also comes from films of {others} nm; the thinnest is taken"
    miss = abs(films[0].hue_miss_deg) if films else 0.0
    if miss > _FAR_DEG:
        yield f"no film flashes that hue: the nearest misses it by {miss:.0f}°"
    if inputs.film_index is None:
        yield _DENSE
    if inputs.core_nm == mica.CORE_NM.typical:
        yield _CORE
    if inputs.medium_index > 1:
        yield _AIR.format(most=np.degrees(np.arcsin(1 / inputs.medium_index)))
    yield _GLINT
    yield from left_out(inputs)
    if inputs.plastic.constants is None:
        yield from left_out(inputs.plastic)
