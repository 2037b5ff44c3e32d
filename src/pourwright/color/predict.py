"""The look of a recipe at the bait's thickness."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.field import number, out, parts, pick, text, unmeasured
from pourwright.base.record import Record
from pourwright.base.source import estimate, memory
from pourwright.color import colorant, flake, two_flux
from pourwright.spectrum import color_space
from pourwright.spectrum.color_space import Light


class ColorantKind(StrEnum):
    """How a colorant acts on light."""

    TRANSLUCENT = "translucent"
    OPAQUE = "opaque"
    PEARL = "pearl"
    FLAKE = "flake"


class Backing(StrEnum):
    """What lies behind the bait."""

    WHITE = "white"
    DARK = "dark"


class Contact(StrEnum):
    """Whether the plastic touches its ground."""

    POURED = "poured on it"
    LYING = "lying on it"


@dataclass(frozen=True, slots=True, kw_only=True)
class Colored(Record):
    """A colorant and its dose."""

    name: str = text("Name", most=60, default="colorant")
    acts: ColorantKind = pick("How it acts", default=ColorantKind.TRANSLUCENT)
    color_hex: str = text("The color it shows", pattern="#[0-9a-fA-F]{6}", most=7)
    grams_per_100g: float = number("Grams in 100 g", low=0, high=50)
    strength: float | None = unmeasured(
        "Strength against a usual colorant", low=0.02, high=20, typical=(0.4, 1, 2.5),
        measure="pour a 5 mm puck with 5 drops in 100 g and compare", logarithmic=True,
    )  # fmt: skip
    film_um: float = number("Film of a flake", low=8, high=250, default=25)


@dataclass(frozen=True, slots=True, kw_only=True)
class PredictInput(Record):
    """A recipe, a thickness, a ground and a light."""

    colorants: tuple[Colored, ...] = parts("Colorants", most=20)
    thick_mm: float = number("Thickness", low=0.2, high=60, default=10)
    backing: Backing = pick("Ground", default=Backing.WHITE)
    contact: Contact = pick("Contact", default=Contact.POURED)
    light: Light = pick("Light", default=Light.D65)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)


@dataclass(frozen=True, slots=True)
class LabBands:
    """A color with its range."""

    lightness: Band = out("L*")
    a: Band = out("a*")
    b: Band = out("b*")


@dataclass(frozen=True, slots=True)
class PredictAnswer:
    """The look of a recipe."""

    wavelengths_nm: tuple[float, ...] = out("Band centers")
    reflectance: tuple[float, ...] = out("Reflectance, mirror light left out")
    transmittance: tuple[float, ...] = out("Transmittance of the layer inside its faces")
    xyz: tuple[float, ...] = out("XYZ, white at Y = 100")
    lab: LabBands = out("CIE L*a*b*")
    srgb_hex: str = out("For a screen")
    in_gamut: bool = out("Whether a screen can show it")
    calibrated: bool = out("Whether the colorants were measured")
    notes: tuple[str, ...] = out("Doubts")


GROUND = {Backing.WHITE: 0.85, Backing.DARK: 0.05}
UNCALIBRATED = (
    "Uncalibrated: read off the colors entered, not from pucks. Pour a 5 mm puck of each colorant "
    "before you trust it."
)


@calculation(
    "color.predict",
    purpose="the look of a recipe",
    sources=(
        memory("Kubelka and Munk (1931); Kubelka (1948); Saunderson (1942)"),
        estimate("smoothest reflectance of the color entered"),
    ),
    example={
        "colorants": [{"name": "green", "color_hex": "#4f6b2a", "grams_per_100g": 0.22}],
        "thick_mm": 10,
    },
)
def predict(inputs: PredictInput) -> PredictAnswer:
    """Two-flux color of a layer; flake covers part of the sight, mixed in reflectance."""
    draws = Draws(seed=inputs.seed, count=80)
    strengths = [
        drawn(draws, c, prefix=f"{i} {c.name}: ")["strength"]
        for i, c in enumerate(inputs.colorants)
    ]
    seen, through = spectra(
        inputs.colorants, strengths, thick_mm=inputs.thick_mm, ground=GROUND[inputs.backing],
        air_gap=inputs.contact is Contact.LYING,
    )  # fmt: skip
    xyz = color_space.xyz_of(seen, inputs.light)
    lab = color_space.lab_of(xyz, color_space.white_xyz(inputs.light))
    screen, inside = color_space.srgb_of(color_space.xyz_of(seen[0], Light.D65))
    notes = [n for c in inputs.colorants for n in left_out(c)]
    notes += width_notes(draws, {"lab.lightness": lab[:, 0]})
    if inputs.colorants:
        notes.append(UNCALIBRATED)
    if any(c.acts is ColorantKind.PEARL for c in inputs.colorants):
        notes.append("Pearl changes with the angle; that is not in this swatch.")
    return PredictAnswer(
        tuple(float(w) for w in color_space.WAVELENGTHS_NM),
        tuple(float(r) for r in seen[0]),
        tuple(float(t) for t in through[0]),
        tuple(float(v) for v in xyz[0]),
        LabBands(*(draws.band(lab[:, i]) for i in range(3))),
        color_space.hex_of(screen),
        inside,
        not inputs.colorants,
        tuple(notes),
    )


def spectra(
    colorants: tuple[Colored, ...],
    strengths: list[Array],
    *,
    thick_mm: float,
    ground: float,
    air_gap: bool,
) -> tuple[Array, Array]:
    """Reflectance and transmittance, shape (draws, 31)."""  # fmt: skip
    rows = strengths[0].shape[0] if strengths else 1
    absorb = np.broadcast_to(colorant.BASE_ABSORB_MM, (rows, color_space.BANDS)).copy()
    scatter = np.full_like(absorb, colorant.BASE_SCATTER_MM)
    covers: list[tuple[Array, Array]] = []
    for c, strength in zip(colorants, strengths, strict=True):
        if c.acts is ColorantKind.FLAKE:
            share = flake.cover(
                np.full(rows, c.grams_per_100g), thick_mm=np.full(rows, thick_mm),
                film_um=c.film_um, density_g_ml=1.05,
            )  # fmt: skip
            shown = color_space.smooth_spectrum(color_space.xyz_of_hex(c.color_hex))
            covers.append((share, shown))
            continue
        k, s = colorant.constants(c.color_hex, _SCATTER[c.acts])
        dose = (c.grams_per_100g * strength)[:, None]
        absorb, scatter = absorb + dose * k, scatter + dose * s
    reflect, transmit = two_flux.layer(absorb, scatter, np.full((rows, 1), thick_mm))
    base = np.full((rows, color_space.BANDS), ground)
    below = two_flux.ground_under_air(base) if air_gap else base
    seen = two_flux.seen_through_face(two_flux.over(reflect, transmit, below))
    for share, shown in covers:
        seen = (1 - share)[:, None] * seen + share[:, None] * shown * (1 - two_flux.FACE_OUT)
    return seen, transmit


_SCATTER = {
    ColorantKind.TRANSLUCENT: colorant.TRANSLUCENT_SCATTER_MM,
    ColorantKind.OPAQUE: colorant.OPAQUE_SCATTER_MM,
    ColorantKind.PEARL: colorant.PEARL_SCATTER_MM,
}


def swatch(colorants: tuple[Colored, ...], *, thick_mm: float, backing: Backing) -> str:
    """The typical look as #rrggbb, poured on a ground."""
    ones = [np.array([c.strength or 1.0]) for c in colorants]
    seen, _ = spectra(colorants, ones, thick_mm=thick_mm, ground=GROUND[backing], air_gap=False)
    return color_space.hex_of(color_space.srgb_of(color_space.xyz_of(seen[0]))[0])
