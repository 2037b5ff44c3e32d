"""Salt or hollow glass for a wanted density."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.field import number, out, pick, unmeasured
from pourwright.base.record import Record
from pourwright.base.source import estimate
from pourwright.matter.additive import DENSITY_G_ML, GLASS_SOURCE, SALT_SOURCE
from pourwright.matter.plastisol import COLD_DENSITY_G_ML
from pourwright.matter.water import SEA_SALINITY, density_kg_m3

MOST_PARTS = 400.0
# Above this share of the volume a filled plastic pours badly; estimate.
THICK_VOLUME_SHARE = 0.25
WATER_C = 20.0


class Additive(StrEnum):
    """What changes the density; each has its own density unless one is typed."""

    SALT = "salt"
    HOLLOW_GLASS = "hollow_glass"
    OTHER = "other"


@dataclass(frozen=True, slots=True, kw_only=True)
class DensityInput(Record):
    """A base, an additive, and one of: its parts, its share, or a target density."""

    base_g_ml: float | None = unmeasured(
        "Cold density of the base", low=0.8, high=1.5, typical=COLD_DENSITY_G_ML.ends,
        label="density of the base", measure="weigh a plain bait in water",
    )  # fmt: skip
    additive: Additive = pick("Additive", default=Additive.SALT)
    additive_g_ml: float | None = number(
        "Density of the additive; left out, that of its sort", low=0.05, high=20, default=None
    )
    parts_per_100g: float | None = number(
        "Parts to 100 of base, by weight", low=0, high=MOST_PARTS, default=None
    )
    share: float | None = number(
        "Share of the whole, by weight, 0 to 0.8", low=0, high=0.8, default=None
    )
    target_g_ml: float | None = number("Density wanted", low=0.3, high=5, default=None)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Exactly one of parts, share and target; another additive names its density."""
        given = [v for v in (self.parts_per_100g, self.share, self.target_g_ml) if v is not None]
        if len(given) != 1:
            raise BadInput("target_g_ml", self.target_g_ml, "give one of parts, share and target")
        if self.additive is Additive.OTHER and self.additive_g_ml is None:
            raise BadInput("additive_g_ml", None, "is required for another additive")


@dataclass(frozen=True, slots=True)
class DensityAnswer:
    """Parts to weigh, and the density that the typical parts give."""

    parts_per_100g: Band = out("Parts to 100 of base, by weight")
    share: Band = out("Share of the whole, by weight, 0 to 1")
    density_g_ml: Band = out("Density of the blend with the typical parts in it")
    notes: tuple[str, ...] = out("What dominates, the waters it floats in, cautions")


@calculation(
    "blend.density",
    purpose="salt or hollow glass for a density",
    sources=(
        estimate("volumes add; contraction and trapped air are left out"),
        SALT_SOURCE,
        GLASS_SOURCE,
        COLD_DENSITY_G_ML.source,
    ),
    example={"base_g_ml": 1.05, "additive": "salt", "target_g_ml": 1.12},
)
def density(inputs: DensityInput) -> DensityAnswer:
    """Volumes add; a target's parts follow from that.

    The band of the parts is what other bases and additives within their ranges would need; the
    band of the density is what the typical parts may give.
    Raises: NoAnswer for a target that the additive cannot reach.
    """
    draws = Draws(seed=inputs.seed)
    base = drawn(draws, inputs)["base_g_ml"]
    additive = _additive(inputs, draws)
    needed = _parts(inputs, base, additive)
    parts = np.clip(needed, 0, MOST_PARTS)
    mixed = blend_density(float(parts[0]), base, additive)
    notes = (
        *left_out(inputs),
        *width_notes(draws, {"parts_per_100g": parts, "density_g_ml": mixed}),
        *_unreached(needed),
        *_pouring(float(parts[0]), float(base[0]), float(additive[0])),
        *_floats(draws.band(mixed)),
        *_cautions(inputs.additive),
    )
    return DensityAnswer(
        draws.band(parts), draws.band(parts / (100 + parts)), draws.band(mixed), notes
    )


def blend_density(parts_per_100g: float, base_g_ml: Array, additive_g_ml: Array) -> Array:
    """Density of 100 parts of base with so many parts of additive, volumes adding up."""
    volume = 100 / base_g_ml + parts_per_100g / additive_g_ml
    return np.asarray((100 + parts_per_100g) / volume)


def parts_for(target_g_ml: float, base_g_ml: Array, additive_g_ml: Array) -> Array:
    """Parts to 100 of base that reach a density, volumes adding up; below 0 where none do.

    Raises: NoAnswer where the first, typical base and additive cannot reach it.
    """
    need = 1 / base_g_ml - 1 / target_g_ml
    give = 1 / target_g_ml - 1 / additive_g_ml
    parts = np.divide(100 * need, give, out=np.full_like(need, np.inf), where=abs(give) > 1e-9)
    if not 0 <= parts[0] <= MOST_PARTS:
        raise NoAnswer(
            f"{target_g_ml:g} g/mL cannot be reached from {base_g_ml[0]:g} with an additive of "
            f"{additive_g_ml[0]:g} g/mL in up to {MOST_PARTS:g} parts to 100"
        )
    return parts


def _additive(inputs: DensityInput, draws: Draws) -> Array:
    if inputs.additive_g_ml is not None:
        return draws.known(inputs.additive_g_ml)
    doubt: Doubt = DENSITY_G_ML[inputs.additive.value]
    return draws.of(doubt.label, doubt)


def _parts(inputs: DensityInput, base: Array, additive: Array) -> Array:
    if inputs.target_g_ml is not None:
        return parts_for(inputs.target_g_ml, base, additive)
    if inputs.share is not None:
        return np.full_like(base, 100 * inputs.share / (1 - inputs.share))
    return np.full_like(base, inputs.parts_per_100g or 0.0)


def _unreached(needed: Array) -> Iterable[str]:
    if needed.min() < 0 or needed.max() > MOST_PARTS:
        yield (
            "At one end of its range the base cannot reach the target with this additive; the "
            "range of the parts stops there. To be sure, weigh a plain bait in water."
        )


def _pouring(parts: float, base_g_ml: float, additive_g_ml: float) -> Iterable[str]:
    filled = parts / additive_g_ml / (parts / additive_g_ml + 100 / base_g_ml)
    if filled > THICK_VOLUME_SHARE:
        yield f"The additive is {filled:.0%} of the volume: it will pour thick (estimate)."


def _floats(mixed: Band) -> Iterable[str]:
    """Neutral means nothing until the water is named."""
    for water, salinity in (("fresh water", 0.0), ("sea water", SEA_SALINITY)):
        heavy = density_kg_m3(WATER_C, salinity) / 1000
        how = "may float or sink"
        if mixed.high < heavy:
            how = "floats"
        elif mixed.low > heavy:
            how = "sinks"
        yield f"In {water} of {WATER_C:g} °C ({heavy:.3f} g/mL) a plain bait {how}."


def _cautions(additive: Additive) -> Iterable[str]:
    if additive is Additive.SALT:
        yield "Salt leaches out in use, and the bait grows lighter."
    yield "Additives must be bone dry: damp in hot plastic flashes to steam and throws it."
    if additive is Additive.HOLLOW_GLASS:
        yield "Hollow glass is a fine dust: weigh it under extraction, as its data sheet says."
