"""The light field down there."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.field import out
from pourwright.spectrum.light import EYE, WAVELENGTHS_NM
from pourwright.water import algae, content, decay, kind, pure, secchi, spread
from pourwright.water.ask import WaterAsk, drawn_water, water_notes
from pourwright.water.daylight import SURFACE_POWER
from pourwright.water.field import FACE_FACTOR, SIDEWAYS

LEFT_OUT = (
    "Bottom, weeds, shade, waves, the blue of the sky and light that algae give off are left out; "
    "the water is taken as the same from top to bottom."
)
SOURCES = (
    pure.ABSORPTION_SOURCE,
    pure.SCATTERING_SOURCE,
    algae.SOURCE,
    content.SILT_SCATTER.source,
    content.ALGAE_SCATTER.source,
    content.SILT_SOURCE,
    content.STAIN_SLOPE.source,
    content.BACK_SHARE.source,
    content.SPECTRA_SOURCE,
    kind.SOURCE,
    decay.SOURCE,
    *spread.SOURCES,
    SIDEWAYS.source,
    FACE_FACTOR.source,
    secchi.LEE_SOURCE,
    secchi.TYLER_SOURCE,
)


@dataclass(frozen=True, slots=True)
class LightAnswer:
    """What the water does to light, and the light at the depth; spectra are the typical ones."""

    left_share: Band = out(
        "Daylight left at the depth, as a daylight-adapted eye weighs it, 0 to 1"
    )
    clearest_nm: float = out("Color of light that goes deepest")
    secchi_lee_m: Band = out("White disk gone at, by Lee et al. (2015)")
    secchi_tyler_m: Band = out("White disk gone at, by Tyler (1968)")
    chlorophyll_mg_m3: Band = out("Chlorophyll reckoned with")
    stain_per_m: Band = out("Absorption by dissolved stain at 440 nm reckoned with")
    mineral_g_m3: Band = out("Mineral silt reckoned with")
    wavelengths_nm: tuple[float, ...] = out("Band centers")
    absorb_per_m: tuple[float, ...] = out("Absorption, a")
    scatter_per_m: tuple[float, ...] = out("Scattering, b")
    back_per_m: tuple[float, ...] = out("Scattering backward, bb")
    beam_per_m: tuple[float, ...] = out("Attenuation of a straight beam, c = a + b")
    down_decay_per_m: tuple[float, ...] = out("Decay of daylight with depth, Kd")
    reflectance: tuple[float, ...] = out("Light coming up over light going down, R")
    down: tuple[float, ...] = out(
        "Light on a level face at the depth, Ed; daylight on the surface is 1 at 560 nm"
    )
    face: tuple[float, ...] = out("Light on an upright face at the depth, all around, same scale")
    level: tuple[float, ...] = out(
        "Radiance of the water that an eye looking level sees behind a bait, same scale to 1/sr"
    )
    notes: tuple[str, ...] = out("What dominates, what would narrow it, what is left out")


@calculation(
    "water.light",
    purpose="the light field down there",
    sources=SOURCES,
    example={"kind": "green", "secchi_m": 1.8, "depth_m": 2, "sky": "sun", "sun_deg": 50},
)
def water_light(inputs: WaterAsk) -> LightAnswer:
    """Absorption and scattering from what is in the water, then the light at the depth.

    A white disk's reading scales what is in that kind of water until both Secchi formulas, in
    the middle, give it back.
    Raises: NoAnswer for a white disk's depth that no such water has.
    """
    draws = Draws(seed=inputs.seed)
    water = drawn_water(draws, inputs)
    field, medium, light = water.field, water.medium, inputs.light
    left = _left_share(field.down)
    lee, tyler = secchi.lee_m(medium, light.cosine), secchi.tyler_m(medium, light.cosine)
    return LightAnswer(
        wavelengths_nm=plain(WAVELENGTHS_NM),
        absorb_per_m=plain(medium.absorb_per_m[0]),
        scatter_per_m=plain(medium.scatter_per_m[0]),
        back_per_m=plain(medium.back_per_m[0]),
        beam_per_m=plain(medium.beam_per_m[0]),
        down_decay_per_m=plain(field.decay_per_m[0]),
        reflectance=plain(field.reflectance[0]),
        down=plain(field.down[0]),
        face=plain(field.face[0]),
        level=plain(field.level[0]),
        chlorophyll_mg_m3=draws.band(water.content.chlorophyll_mg_m3),
        stain_per_m=draws.band(water.content.stain_per_m),
        mineral_g_m3=draws.band(water.content.mineral_g_m3),
        left_share=draws.band(left),
        clearest_nm=float(WAVELENGTHS_NM[field.decay_per_m[0].argmin()]),
        secchi_lee_m=draws.band(lee),
        secchi_tyler_m=draws.band(tyler),
        notes=(
            *water_notes(inputs, water),
            *width_notes(draws, {"left_share": left, "secchi_lee_m": lee}),
            *_reading(inputs, lee, tyler),
            LEFT_OUT,
        ),
    )


def plain(values: Array) -> tuple[float, ...]:
    """A spectrum as plain numbers."""
    return tuple(float(v) for v in values)


def _left_share(down: Array) -> Array:
    return np.asarray(down @ EYE[:, 1] / (SURFACE_POWER @ EYE[:, 1]))


def _reading(inputs: WaterAsk, lee: Array, tyler: Array) -> Iterable[str]:
    if inputs.secchi_m is None:
        apart = float(np.exp(abs(np.log(lee[0] / tyler[0]))))
        yield (
            f"The two formulas for the white disk give {lee[0]:.2g} and {tyler[0]:.2g} m: take "
            f"either as good to a factor of {max(secchi.MISS.band.high, apart):.2g}."
        )
