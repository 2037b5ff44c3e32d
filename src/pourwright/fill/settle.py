"""Whether flake, salt or hollow glass leaves its place before the plastic sets."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import out
from pourwright.base.source import estimate, published
from pourwright.base.wording import span
from pourwright.fill.melt import melt_note, viscosity_draws
from pourwright.fill.settle_input import Particle, SettleInput, State
from pourwright.matter.additive import DENSITY_G_ML
from pourwright.matter.flow import LIQUID_PA_S, MELT_PA_S, liquid_viscosity_pa_s
from pourwright.matter.plastisol import COLD_DENSITY_G_ML, HOT_DENSITY_G_ML
from pourwright.physics.settling import (
    DISK_AT_RANDOM,
    DISK_BROADSIDE,
    DISK_EDGEWISE,
    ball_speed_m_s,
    disk_speed_m_s,
    hindered,
)

_SECONDS_PER_MIN, _MM = 60.0, 1000.0
_ATTITUDE = Doubt(
    "how the flakes lie as they sink", Band(DISK_EDGEWISE, DISK_AT_RANDOM, DISK_BROADSIDE), ""
)
# A cube against a ball of its volume is 0.92: Pettyjohn and Christiansen, Chem. Eng. Prog. 44
# (1948) 157, sphericity 0.806.
_SHAPE = Doubt("grains are no balls", Band(0.7, 0.92, 1.0), "")
# Crowding of flakes and grains is known to that share of the volume.
_MOST_CROWDED = 0.4
_LONGEST_S = 86_400.0
# Odds from which cup or mold are blamed; estimate.
_LIKELY = 0.25


class Blame(StrEnum):
    """Where it leaves its place first."""

    CUP = "the cup"
    MOLD = "the mold"
    NEITHER = "neither"


@dataclass(frozen=True, slots=True)
class SettleAnswer:
    """How fast, how far, and what to do."""

    rate_mm_min: Band = out("How fast it sinks; negative if it rises")
    in_cup_mm: Band = out("How far it goes while the cup stands; negative if it rises")
    in_mold_mm: Band | None = out("How far it goes in the mold; null for raw liquid")
    blame: Blame = out("Where it leaves its place")
    shows_share: float = out("Odds that it shows after the cup stood that long, 0 to 1")
    shows_in_mold_share: float = out("Odds that it shows for what happens in the mold, 0 to 1")
    stir_every_s: Band = out("Stir at least that often")
    advice: tuple[str, ...] = out("What to do")
    notes: tuple[str, ...] = out("What dominates, what would narrow it")


@calculation(
    "fill.settle",
    purpose="will flake or salt sink before it sets",
    sources=(
        published("Stokes (1851): a ball"),
        published("Happel and Brenner, Low Reynolds Number Hydrodynamics (1983): a thin disk"),
        published("Richardson and Zaki, Trans. Inst. Chem. Eng. 32 (1954) 35: a crowd of balls"),
        LIQUID_PA_S.source,
        MELT_PA_S.source,
        estimate("streams in a cooling cup are left out"),
    ),
    example={"particle": "salt", "size_mm": 0.2, "grams_per_100g": 10, "stand_s": 90},
)
def settle(inputs: SettleInput) -> SettleAnswer:
    """Slow settling of flakes as disks and of all else as balls, crowded as they are.

    Raises: BadInput for a plastic too crowded to tell, or a temperature out of its state.
    """
    draws = Draws(seed=inputs.seed)
    v = drawn(draws, inputs)
    speed = _speed_m_s(draws, inputs, v)
    rate = speed * _MM * _SECONDS_PER_MIN
    cup = speed * _MM * inputs.stand_s
    mold = speed * _MM * v["set_s"] if inputs.plastic is State.MELT else None
    stir = np.minimum(inputs.shows_mm / _MM / np.maximum(np.abs(speed), 1e-12), _LONGEST_S)
    shows, shows_in_mold = (_odds(moved, inputs.shows_mm) for moved in (cup, mold))
    blame = _blame(shows, shows_in_mold)
    return SettleAnswer(
        rate_mm_min=draws.band(rate),
        in_cup_mm=draws.band(cup),
        in_mold_mm=None if mold is None else draws.band(mold),
        blame=blame,
        shows_share=shows,
        shows_in_mold_share=shows_in_mold,
        stir_every_s=draws.band(stir),
        advice=tuple(_advice(blame, shows, draws.band(stir), inputs)),
        notes=(
            *left_out(inputs, unused=_unused(inputs)),
            *(melt_note(inputs.melt_pa_s) if inputs.plastic is State.MELT else ()),
            *width_notes(draws, {"rate_mm_min": rate}),
            *_notes(inputs, rate),
        ),
    )


def _speed_m_s(draws: Draws, inputs: SettleInput, v: dict[str, Array]) -> Array:
    """Downward positive."""
    own = _density_kg_m3(draws, inputs)
    plastic, thick = _plastic(draws, inputs, v["liquid_pa_s"])
    slowed = hindered(_crowd(inputs, own, plastic))
    if inputs.particle is Particle.FLAKE:
        attitude = np.clip(draws.of(_ATTITUDE.label, _ATTITUDE), DISK_EDGEWISE, DISK_BROADSIDE)
        alone = disk_speed_m_s(
            radius_m=round_radius_m(inputs.size_mm / _MM), thick_m=v["film_um"] / 1e6,
            heavier_kg_m3=own - plastic, viscosity_pa_s=thick, attitude=attitude,
        )  # fmt: skip
        return np.asarray(alone * slowed)
    round_one = inputs.particle is Particle.HOLLOW_GLASS
    shape = 1.0 if round_one else np.minimum(draws.of(_SHAPE.label, _SHAPE), 1)
    alone = -ball_speed_m_s(
        diameter_m=inputs.size_mm / _MM, lighter_kg_m3=plastic - own, viscosity_pa_s=thick
    )
    return np.asarray(alone * shape * slowed)


def round_radius_m(across_m: float) -> float:
    """Radius of the disk of the same area as a hexagon so far from flat to flat."""
    return across_m * math.sqrt(math.sqrt(3) / (2 * math.pi))


def _density_kg_m3(draws: Draws, inputs: SettleInput) -> Array:
    if inputs.density_g_ml is not None:
        return draws.known(1000 * inputs.density_g_ml)
    doubt = DENSITY_G_ML[inputs.particle.value]
    return 1000 * draws.of(doubt.label, doubt)


def _plastic(draws: Draws, inputs: SettleInput, liquid_pa_s: Array) -> tuple[Array, Array]:
    """Density and viscosity."""
    temp = draws.known(inputs.temp_c)
    if inputs.plastic is State.MELT:
        dense = 1000 * HOT_DENSITY_G_ML.drawn(draws)
        return dense, viscosity_draws(draws, inputs.melt_pa_s, temp)
    return 1000 * COLD_DENSITY_G_ML.drawn(draws), liquid_viscosity_pa_s(temp, liquid_pa_s)


def _crowd(inputs: SettleInput, own: Array, plastic: Array) -> Array:
    """Share of the volume that the particles take up."""
    solid = inputs.grams_per_100g / own
    share = solid / (solid + 100 / plastic)
    if float(share[0]) > _MOST_CROWDED:
        why = f"is {share[0]:.0%} of the volume: too crowded to settle, it is a paste"
        raise BadInput("grams_per_100g", inputs.grams_per_100g, why)
    return np.asarray(share)


def _blame(cup_odds: float, mold_odds: float) -> Blame:
    if mold_odds >= _LIKELY:
        return Blame.MOLD
    return Blame.CUP if cup_odds >= _LIKELY else Blame.NEITHER


def _odds(moved_mm: Array | None, shows_mm: float) -> float:
    return 0.0 if moved_mm is None else float(np.mean(np.abs(moved_mm[1:]) >= shows_mm))


def _unused(inputs: SettleInput) -> tuple[str, ...]:
    return (
        *(() if inputs.particle is Particle.FLAKE else ("film_um",)),
        *(("liquid_pa_s",) if inputs.plastic is State.MELT else ("set_s",)),
    )


def _advice(blame: Blame, cup_odds: float, stir_s: Band, inputs: SettleInput) -> Iterable[str]:
    match blame:
        case Blame.CUP:
            yield (
                f"The cup is to blame: stir before every load, at the latest after "
                f"{span(stir_s.low)}, slowly, so that no air gets in."
            )
        case Blame.MOLD:
            yield (
                "It goes in the mold itself: a cooler mold, a finer grain or a thicker plastic; "
                "turning the clamped mold over, sprue set, spreads it."
            )
            if cup_odds >= _LIKELY:
                often = span(stir_s.low)
                yield f"In the cup too: stir before every load, at the latest after {often}."
        case Blame.NEITHER:
            yield f"It stays where it is put: stirring every {span(stir_s.low)} is plenty."
    if inputs.particle is Particle.SALT and blame is not Blame.NEITHER:
        yield "Half the grain settles four times slower."


def _notes(inputs: SettleInput, rate: Array) -> Iterable[str]:
    if float(rate[1:].min()) < 0 < float(rate[1:].max()):
        yield "Within the ranges given it may sink or rise."
    if inputs.plastic is State.MELT:
        yield (
            "Streams in a cup that cools at its wall carry fine particles about and keep them up "
            "longer than said here."
        )
    else:
        yield "Resin settles out of a raw jug too, and takes days: mix the jug before every pour."
    if inputs.particle is Particle.SALT:
        yield "Salt must be bone dry: damp flashes to steam in hot plastic and throws it."
    if inputs.particle is Particle.HOLLOW_GLASS:
        yield "Hollow glass is a fine dust: weigh it under extraction, as its data sheet says."
