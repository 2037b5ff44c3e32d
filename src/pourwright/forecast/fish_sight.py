"""What a fish's eye makes of plastic in a water: against the water, and one against another."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from pourwright.base.draws import Array, Draws
from pourwright.color.layer import Mixture, sight
from pourwright.color.slab import Placing
from pourwright.water.field import LightField
from pourwright.water.fish.eye import Eye
from pourwright.water.fish.surroundings import LEAST_LX, light_lx, under_water
from pourwright.water.fish.told_apart import Gaze, Telling

_SEED = 1


@dataclass(frozen=True, slots=True, eq=False)
class Plastic:
    """Light a piece of plastic sends back under water, and light it lets through, (31,) each."""

    back: Array
    through: Array


@dataclass(frozen=True, slots=True)
class FishSight:
    """Each piece of plastic against the water by name, and pairs of names against each other.

    `light_lx` is the light on the bait; where it is too dark for cones nothing is told.
    """

    light_lx: float
    on_water: Mapping[str, Telling]
    pairs: Mapping[tuple[str, str], Telling]


def plastic(mixed: Mixture, thick_mm: float) -> Plastic:
    """Plastic of that thickness, with water on both sides of it."""
    seen = sight(mixed, thick_mm=thick_mm, ground=0.0, placing=Placing.WATER)
    return Plastic(seen.reflectance[0], seen.transmittance[0])


def fish_sight(
    pieces: Mapping[str, Plastic],
    pairs: Sequence[tuple[str, str]],
    field: LightField,
    *,
    away_m: float,
    eye: Eye,
) -> FishSight:
    """Plastics in a water, seen level from that far, by an eye used to the light there."""
    lit = light_lx(field)
    if lit < LEAST_LX:
        return FishSight(lit, {}, {})
    there = under_water(field, away_m=away_m)
    draws = Draws(seed=_SEED)
    gaze = Gaze(draws, eye, there.white, light_lx=lit)
    water = gaze.caught("water", there.water)
    caught = {
        name: gaze.caught(name, there.light_of(piece.back, piece.through))
        for name, piece in pieces.items()
    }
    return FishSight(
        lit,
        {name: gaze.steps(its, water).telling(draws) for name, its in caught.items()},
        {(a, b): gaze.steps(caught[a], caught[b]).telling(draws) for a, b in pairs},
    )
