"""The look of a recipe at the bait's thickness, with its range."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import number, out, part, parts, pick
from pourwright.base.record import Record, assumed
from pourwright.base.source import estimate, memory, published
from pourwright.color.dose import Dose
from pourwright.color.ground import GROUND, Backing
from pourwright.color.layer import Contact, sight
from pourwright.color.plastic import RawPlastic, raw_flux
from pourwright.spectrum.color_space import hex_of, lab_of, srgb_of, xyz_of_lab
from pourwright.spectrum.light import WAVELENGTHS_NM, Light, Observer, white_xyz, xyz_of


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
    contact: Contact = pick(
        "Poured on its ground (contact) or lying on it (air gap)", default=Contact.CONTACT
    )
    light: Light = pick("Light", default=Light.D65)
    observer: Observer = pick("Observer", default=Observer.CIE_1931)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a reflectance without its ground, or the other way round."""
        if (self.backing is Backing.OTHER) != (self.ground_share is not None):
            raise BadInput(
                "ground_share", self.ground_share, "goes with the ground 'other', and only there"
            )

    def ground(self) -> float:
        """Reflectance of the ground."""
        return GROUND[self.backing] if self.ground_share is None else self.ground_share


@dataclass(frozen=True, slots=True)
class LabBands:
    """A color with its range."""

    lightness: Band = out("L*")
    a: Band = out("a*, green to red")
    b: Band = out("b*, blue to yellow")


@dataclass(frozen=True, slots=True)
class PredictAnswer:
    """The look of a recipe."""

    wavelengths_nm: tuple[float, ...] = out("Band centers")
    reflectance: tuple[float, ...] = out("Typical reflectance, mirror light left out, 0 to 1")
    transmittance: tuple[float, ...] = out(
        "Typical transmittance for diffuse light inside the faces, 0 to 1"
    )
    xyz: tuple[float, ...] = out("Typical XYZ, white at Y = 100")
    lab: LabBands = out("L*a*b* against the white of the light")
    srgb_hex: str = out("Typical color for a screen, carried over to daylight by its L*a*b*")
    in_gamut: bool = out("Whether a screen can show it; where not, the nearest it can")
    calibrated: bool = out("Whether everything in it was measured")
    notes: tuple[str, ...] = out("What was assumed, what is left out, what would narrow it")


# Two-flux layers miss mixed translucent colors by 2.5 to 8 CIEDE2000 in a simulation against
# radiative transfer, and an entered color is no spectrum; estimate.
_MISS = "the two-flux model and the color entered"
_MODEL_MISS = {
    "model lightness": Doubt(f"lightness missed by {_MISS}", Band(-5, 0, 5)),
    "model a": Doubt(f"a* missed by {_MISS}", Band(-7, 0, 7)),
    "model b": Doubt(f"b* missed by {_MISS}", Band(-7, 0, 7)),
}
_RAW_MISS_SHARE = 0.3

UNCALIBRATED = (
    "uncalibrated: read off the colors entered, not off measured pucks; pour a 5 mm puck of each "
    "colorant over white and over black before you trust it"
)
GAP_NOTE = (
    "air gap: two-flux light reads clear plastic too dark over a bright ground, by up to 0.15 in "
    "reflectance"
)


@calculation(
    "color.predict",
    purpose="the look of a recipe",
    sources=(
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
    """Two-flux color of one layer over a ground, flake mixed in by the area it hides.

    Daylight reflectance is 0 to 1 by band; the range holds what nobody measured and the miss of
    the model itself.
    """
    draws = Draws(seed=inputs.seed)
    values = [d.drawn(draws, f"{i} ") for i, d in enumerate(inputs.doses)]
    seen = sight(
        raw_flux(drawn(draws, inputs.plastic, "plastic ")),
        [d.stuff(v) for d, v in zip(inputs.doses, values, strict=True)],
        thick_mm=inputs.thick_mm, ground=inputs.ground(), contact=inputs.contact,
    )  # fmt: skip
    xyz, white = xyz_of(seen.reflectance, inputs.light), white_xyz(inputs.light)
    typical_lab = lab_of(xyz[0], white)
    lab = _with_model_miss(draws, lab_of(xyz, white), bare=not _colored(inputs))
    screen, inside = srgb_of(xyz_of_lab(typical_lab, white_xyz()))
    return PredictAnswer(
        _plain(WAVELENGTHS_NM),
        _plain(seen.reflectance[0]),
        _plain(seen.transmittance[0]),
        _plain(xyz[0]),
        LabBands(*(draws.band(lab[:, i]) for i in range(3))),
        hex_of(screen),
        inside,
        not _colored(inputs) and not assumed(inputs.plastic),
        (*_cautions(inputs), *_doubts(draws, inputs, lab)),
    )


def _with_model_miss(draws: Draws, lab: Array, *, bare: bool) -> Array:
    miss = np.stack([draws.of(name, doubt) for name, doubt in _MODEL_MISS.items()], axis=1)
    missed = lab + miss * (_RAW_MISS_SHARE if bare else 1.0)
    missed[:, 0] = np.clip(missed[:, 0], 0, 100)
    return missed


def _cautions(inputs: PredictInput) -> Iterable[str]:
    if _colored(inputs):
        yield UNCALIBRATED
    if inputs.contact is Contact.AIR_GAP:
        yield GAP_NOTE
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
    yield from left_out(inputs.plastic)
    yield from width_notes(draws, {n: lab[:, i] for i, n in enumerate(("L*", "a*", "b*"))})


def _colored(inputs: PredictInput) -> tuple[Dose, ...]:
    return tuple(d for d in inputs.doses if d.colorant and d.per_100g > 0)


def _plain(values: Array) -> tuple[float, ...]:
    return tuple(float(v) for v in values)
