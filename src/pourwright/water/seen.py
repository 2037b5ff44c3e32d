"""From how far a bait is seen, and as what."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.field import out
from pourwright.base.source import memory, published
from pourwright.spectrum.light import WAVELENGTHS_NM
from pourwright.water import sight
from pourwright.water.ask import drawn_water, water_notes
from pourwright.water.light import LEFT_OUT, SOURCES, plain
from pourwright.water.sight_input import SightInput

# Share of the water's brightness by which a bait may miss it and still count as alike; estimate.
_ALIKE = 0.1


class Shows(StrEnum):
    """What it looks like before the water."""

    DARK = "dark against the water"
    BRIGHT = "bright against the water"
    ALIKE = "about as bright as the water"


@dataclass(frozen=True, slots=True)
class SightAnswer:
    """Contrast and range; spectra are the typical ones."""

    range_m: Band = out("Farthest a daylight-adapted human eye makes it out by brightness")
    shows: Shows = out("What it most likely is against the water")
    bright_share: float = out("Odds that it is the brighter of the two, 0 to 1")
    contrast: Band = out("Contrast in brightness close by: -1 black, 0 alike, 1 twice as bright")
    hiding_share: Band = out(
        "Share of light an even gray bait would send back to be as bright as the water behind it; "
        "above 1 even white is dark"
    )
    wavelengths_nm: tuple[float, ...] = out("Band centers")
    band_contrast: tuple[float, ...] = out("Contrast of each band close by")
    band_range_m: tuple[float, ...] = out("How far each band alone carries")
    band_hiding_share: tuple[float, ...] = out("Share sent back that hides it in each band")
    fade_per_m: tuple[float, ...] = out("How fast the contrast of each band falls")
    apart_contrast: tuple[float, ...] = out(
        "Contrast in brightness from each of those distances away"
    )
    apart_m: tuple[float, ...] = out("Distances from close by to the range")
    notes: tuple[str, ...] = out("Whose eye, what dominates, what is left out")


@calculation(
    "water.sight",
    purpose="from how far a bait is seen, and as what",
    sources=(
        sight.SOURCE,
        memory("least contrast 0.02: Duntley (1963), black is seen to about 4 / c"),
        published("Zaneveld and Pegau, Opt. Express 11 (2003) 2997: to 4.8 / c, contrast 0.008"),
        published("S. A. Burns, Color Res. Appl. 45 (2020) 8: smoothest reflectance of a color"),
        *SOURCES,
    ),
    example={"color_hex": "#c8d400", "kind": "green", "secchi_m": 1.8, "depth_m": 2},
)
def water_sight(inputs: SightInput) -> SightAnswer:
    """The bait's light against the water's, fading on the way to the eye.

    By brightness to a human eye in daylight: a color alike in brightness, a fish's eye, and the
    size of the bait are left out.
    Raises: BadInput for a bait that gives more light than falls on it, NoAnswer for a color no
    surface has or a white disk's depth that no such water has.
    """
    draws = Draws(seed=inputs.seed)
    water = drawn_water(draws, inputs)
    threshold = drawn(draws, inputs)["threshold"]
    sine = inputs.sine
    line = sight.sight_line(water.field, sends=inputs.sends(), lets=inputs.lets(), sine=sine)
    contrast = line.eye_contrast(draws.known(0.0))
    most = _to_surface_m(inputs)
    range_m = np.minimum(sight.eye_range_m(line, threshold), most)
    hiding = sight.hiding_reflectance(water.field, lets=inputs.lets(), sine=sine)
    gray = sight.even_hiding_reflectance(water.field, lets=inputs.lets(), sine=sine)
    away = np.linspace(0, float(range_m[0]), 21)
    return SightAnswer(
        range_m=draws.band(range_m),
        shows=_shows(float(contrast[0])),
        bright_share=float(np.mean(contrast[1:] > 0)),
        contrast=draws.band(contrast),
        hiding_share=draws.band(gray),
        wavelengths_nm=plain(WAVELENGTHS_NM),
        band_contrast=plain(line.contrast[0]),
        band_range_m=plain(np.minimum(sight.band_range_m(line, threshold)[0], most)),
        band_hiding_share=plain(hiding[0]),
        fade_per_m=plain(line.fade_per_m[0]),
        apart_contrast=tuple(float(line.eye_contrast(draws.known(d))[0]) for d in away),
        apart_m=plain(away),
        notes=(
            *water_notes(inputs, water),
            *left_out(inputs),
            *width_notes(draws, {"range_m": range_m, "contrast": contrast}),
            *_words(inputs, contrast, range_m),
            LEFT_OUT,
        ),
    )


def _shows(contrast: float) -> Shows:
    if abs(contrast) < _ALIKE:
        return Shows.ALIKE
    return Shows.BRIGHT if contrast > 0 else Shows.DARK


def _to_surface_m(inputs: SightInput) -> float:
    """How far an eye that looks down at the bait can back off before it leaves the water."""
    return inputs.depth_m / -inputs.sine if inputs.sine < 0 else np.inf


def _words(inputs: SightInput, contrast: Array, range_m: Array) -> Iterable[str]:
    yield (
        "Rough: a human eye in daylight, a target too large to lose by its size. A small bait is "
        "lost sooner; a fish's eye weighs the bands its own way and may do better or worse."
    )
    if contrast[1:].min() < 0 < contrast[1:].max():
        yield (
            "Whether it is brighter or darker than the water hangs on figures good to a factor; "
            "a bait near that balance may be bright from one side and dark from the other."
        )
    if range_m[0] >= _to_surface_m(inputs):
        yield "The surface comes first: an eye that backs off sees the bait until it is out of it."
    if inputs.transmittance:
        yield (
            "What comes through is taken as a clear view of the water behind; milky plastic "
            "scatters it and is as bright as if it sent that light back."
        )
