"""Salt or hollow glass for a wanted density."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.field import number, out, unmeasured
from pourwright.base.record import Record
from pourwright.base.source import memory, published

MOST_PARTS = 400.0


@dataclass(frozen=True, slots=True, kw_only=True)
class DensityInput(Record):
    """A base, an additive, and either parts of it or a target density."""

    base_g_ml: float | None = unmeasured(
        "Density of the cured base", low=0.8, high=1.5, typical=(1.02, 1.05, 1.1),
        measure="weigh a plain bait in water",
    )  # fmt: skip
    additive_g_ml: float = number(
        "Density of the additive; salt is 2.165", low=0.05, high=20, default=2.165
    )
    parts_per_100g: float | None = number(
        "Parts to 100 of base, by weight", low=0, high=MOST_PARTS, default=None
    )
    target_g_ml: float | None = number("Density wanted", low=0.3, high=5, default=None)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Exactly one of parts and target."""
        if (self.parts_per_100g is None) == (self.target_g_ml is None):
            raise BadInput("target_g_ml", self.target_g_ml, "give either parts or a target")


@dataclass(frozen=True, slots=True)
class DensityAnswer:
    """Parts and the density they give."""

    parts_per_100g: Band = out("Parts to 100 of base, by weight")
    share: Band = out("Share of the whole by weight, 0 to 1")
    density_g_ml: Band = out("Density of the blend")
    notes: tuple[str, ...] = out("Cautions")


@calculation(
    "blend.density",
    purpose="salt or hollow glass for a density",
    sources=(
        published("additive volumes"),
        memory("sodium chloride 2.165 g/mL, CRC Handbook of Chemistry and Physics"),
    ),
    example={"base_g_ml": 1.05, "additive_g_ml": 2.165, "target_g_ml": 1.12},
)
def density(inputs: DensityInput) -> DensityAnswer:
    """Volumes add; the target's parts follow.

    Raises: NoAnswer for a target that the additive cannot reach.
    """
    draws = Draws(seed=inputs.seed)
    base = drawn(draws, inputs)["base_g_ml"]
    if inputs.parts_per_100g is not None:
        parts = draws.known(inputs.parts_per_100g)
    else:
        parts = parts_for(base, inputs.additive_g_ml, inputs.target_g_ml or 0.0)
    mixed = (100 + parts) / (100 / base + parts / inputs.additive_g_ml)
    notes = (
        *left_out(inputs),
        *width_notes(draws, {"density_g_ml": mixed, "parts_per_100g": parts}),
        "Neutral names its water: fresh water is 0.998 g/mL at 20 °C, sea water 1.025.",
        "Salt leaches out in use. Additives must be bone dry: water flashes to steam.",
    )
    return DensityAnswer(
        draws.band(parts), draws.band(parts / (100 + parts)), draws.band(mixed), notes
    )


def parts_for(base: Array, additive_g_ml: float, target_g_ml: float) -> Array:
    """Parts to 100 of base that reach a density by additive volumes.

    Raises: NoAnswer where base and target leave no room for the additive.
    """
    need, give = 1 / base - 1 / target_g_ml, 1 / target_g_ml - 1 / additive_g_ml
    parts = np.divide(100 * need, give, out=np.full_like(base, -1.0), where=abs(give) > 1e-12)
    if not 0 <= float(parts[0]) <= MOST_PARTS:
        raise NoAnswer(
            f"{target_g_ml:g} g/mL cannot be reached from {float(base[0]):g} with an additive of "
            f"{additive_g_ml:g} g/mL"
        )
    return np.clip(parts, 0, MOST_PARTS)
