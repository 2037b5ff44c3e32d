"""The look of a recipe at the bait's thickness, with its range."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.assume import left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.field import number, out, part, parts, pick
from pourwright.base.record import Record, assumed
from pourwright.base.source import estimate, memory, published
from pourwright.color.dose import Dose
from pourwright.color.ground import Backing, check_ground, ground_of
from pourwright.color.lab import LabBands, screen_of
from pourwright.color.layer import Sight, mixture, sight, two_flux_sight
from pourwright.color.plastic import RawPlastic
from pourwright.color.slab import Placing
from pourwright.spectrum.color_space import lab_of
from pourwright.spectrum.light import WAVELENGTHS_NM, WEIGHTS, Light, Observer
from pourwright.spectrum.shed import ShedLight


class Engine(StrEnum):
    """How light is followed through the plastic."""

    TRANSPORT = "radiative transfer"
    TWO_FLUX = "two flux"


@dataclass(frozen=True, slots=True, kw_only=True)
class PredictInput(Record):
    """A recipe, a thickness, a ground and a light."""

    doses: tuple[Dose, ...] = parts("Recipe for 100 g of plastic", most=20)
    plastic: RawPlastic = part("The plastic without color", default=RawPlastic())
    thick_mm: float = number("Thickness", low=0.2, high=60, default=10)
    backing: Backing = pick("Ground behind it", default=Backing.WHITE)
    ground_share: float | None = number(
        "Reflectance of another ground, 0 to 1", low=0, high=1, default=None
    )
    placing: Placing = pick(
        "Poured on its ground (contact), lying on it (air gap), in water over it, or in the hand "
        "with nothing behind",
        default=Placing.CONTACT,
    )
    light: Light = pick("Light", default=Light.D65)
    shed_light: ShedLight | None = part("Your own light, instead", default=None)
    engine: Engine = pick("How light is followed", default=Engine.TRANSPORT)
    observer: Observer = pick("Observer", default=Observer.CIE_1931)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a reflectance without its ground, or the other way round."""
        check_ground(self.backing, self.ground_share)

    def ground(self) -> float:
        """Reflectance of the ground."""
        return ground_of(self.backing, self.ground_share)

    def weights(self) -> Array:
        """XYZ weights of the light it is seen in, (31, 3)."""
        return WEIGHTS[self.light] if self.shed_light is None else self.shed_light.weights()


@dataclass(frozen=True, slots=True)
class PredictAnswer:
    """The look of a recipe."""

    wavelengths_nm: tuple[float, ...] = out("Band centers")
    reflectance: tuple[float, ...] = out("Typical reflectance, mirror light left out, 0 to 1")
    transmittance: tuple[float, ...] = out(
        "Typical share of light let through, to the ground or out below, 0 to 1"
    )
    xyz: tuple[float, ...] = out("Typical XYZ, white at Y = 100")
    lab: LabBands = out("L*a*b* against the white of the light")
    srgb_hex: str = out("Typical color for a screen, carried over to daylight by its L*a*b*")
    in_gamut: bool = out("Whether a screen can show it; where not, the nearest it can")
    calibrated: bool = out("Whether everything in it was measured")
    notes: tuple[str, ...] = out("What was assumed, what is left out, what would narrow it")


# A color entered is no spectrum, and its strength in mixtures is a guess; estimate.
_ENTERED = "the color entered, which is no spectrum"
_ENTERED_MISS = {
    "model lightness": Doubt(f"lightness missed by {_ENTERED}", Band(-5, 0, 5)),
    "model a": Doubt(f"a* missed by {_ENTERED}", Band(-7, 0, 7)),
    "model b": Doubt(f"b* missed by {_ENTERED}", Band(-7, 0, 7)),
}
# What one scattered lobe for all misses of colorants that scatter each in its own way: 0.5, and
# 0.9 in one of ten, in a simulation (docs/color.md); estimate.
_MEASURED_SHARE = 0.15
_TWO_FLUX_SHARE = 0.6

UNCALIBRATED = (
    "uncalibrated: read off the colors entered, not off measured pucks; pour a 5 mm puck of each "
    "colorant over white and over black before you trust it"
)
TWO_FLUX_NOTE = (
    "two flux: mixed translucent colors are missed by 2.5 to 8 CIEDE2000, and clear plastic over "
    "an air gap reads too dark"
)


@calculation(
    "color.predict",
    purpose="the look of a recipe",
    sources=(
        estimate("radiative transfer in a slab by adding and doubling, tools/adding_doubling.py"),
        memory("Kubelka and Munk, Z. tech. Phys. 12 (1931) 593; Kubelka, JOSA 38 (1948) 448"),
        memory("Saunderson, JOSA 32 (1942) 727; Judd, J. Res. NBS 29 (1942) 329"),
        published("S. A. Burns, Color Res. Appl. 45 (2020) 8: smoothest reflectance of a color"),
        estimate("absorption from the color entered, hiding by kind, haze and yellow of plastic"),
    ),
    example={
        "doses": [
            {
                "name": "green", "per_100g": 6, "drop_mass_g": 0.036,
                "colorant": {"kind": "dye", "color_hex": "#4f6b2a"},
            },
            {
                "name": "copper flake", "per_100g": 0.7, "measure": "grams",
                "colorant": {"kind": "flake", "color_hex": "#b0713a", "film_um": 25},
            },
        ],
        "thick_mm": 10,
    },
)  # fmt: skip
def predict(inputs: PredictInput) -> PredictAnswer:
    """Color of one layer over a ground, flakes met at their depth.

    Daylight reflectance is 0 to 1 by band; the range holds what nobody measured and the miss of
    the model itself.
    """
    draws = Draws(seed=inputs.seed)
    seen = _seen(draws, inputs)
    weights = inputs.weights()
    xyz, white = seen.reflectance @ weights, weights.sum(axis=0)
    typical_lab = lab_of(xyz[0], white)
    lab = _with_model_miss(draws, inputs, lab_of(xyz, white))
    screen, inside = screen_of(typical_lab)
    return PredictAnswer(
        _plain(WAVELENGTHS_NM),
        _plain(seen.reflectance[0]),
        _plain(seen.transmittance[0]),
        _plain(xyz[0]),
        LabBands(*(draws.band(lab[:, i]) for i in range(3))),
        screen,
        inside,
        _calibrated(inputs),
        (*_cautions(inputs), *_doubts(draws, inputs, lab)),
    )


def _seen(draws: Draws, inputs: PredictInput) -> Sight:
    values = [d.drawn(draws, f"{i} ") for i, d in enumerate(inputs.doses)]
    mixed = mixture(
        inputs.plastic.flux(inputs.plastic.drawn(draws)),
        [d.stuff(v) for d, v in zip(inputs.doses, values, strict=True)],
    )
    how = sight if inputs.engine is Engine.TRANSPORT else two_flux_sight
    return how(mixed, thick_mm=inputs.thick_mm, ground=inputs.ground(), placing=inputs.placing)


def _calibrated(inputs: PredictInput) -> bool:
    plastic = inputs.plastic.constants is not None or not assumed(inputs.plastic)
    return plastic and all(d.colorant.measured for d in _colored(inputs) if d.colorant)


def _with_model_miss(draws: Draws, inputs: PredictInput, lab: Array) -> Array:
    entered = any(d.colorant and not d.colorant.measured for d in _colored(inputs))
    share = 1.0 if entered else _MEASURED_SHARE
    if inputs.engine is Engine.TWO_FLUX:
        share = max(share, _TWO_FLUX_SHARE)
    miss = np.stack([draws.of(name, doubt) for name, doubt in _ENTERED_MISS.items()], axis=1)
    missed = lab + share * miss
    missed[:, 0] = np.clip(missed[:, 0], 0, 100)
    return missed


def _cautions(inputs: PredictInput) -> Iterable[str]:
    if any(d.colorant and not d.colorant.measured for d in _colored(inputs)):
        yield UNCALIBRATED
    if inputs.engine is Engine.TWO_FLUX:
        yield TWO_FLUX_NOTE
    plain = [d.name for d in inputs.doses if d.colorant is None]
    if plain:
        yield f"counted as clear, for want of a color: {', '.join(plain)}"
    for limit in dict.fromkeys(d.colorant.limit for d in _colored(inputs) if d.colorant):
        if limit:
            yield limit


def _doubts(draws: Draws, inputs: PredictInput, lab: Array) -> Iterable[str]:
    for dose in _colored(inputs):
        yield from dose.left_out()
        yield from dose.color_left_out()
    if inputs.plastic.constants is None:
        yield from left_out(inputs.plastic)
    yield from width_notes(draws, {n: lab[:, i] for i, n in enumerate(("L*", "a*", "b*"))})


def _colored(inputs: PredictInput) -> tuple[Dose, ...]:
    return tuple(d for d in inputs.doses if d.colorant and d.per_100g > 0)


def _plain(values: Array) -> tuple[float, ...]:
    return tuple(float(v) for v in values)
