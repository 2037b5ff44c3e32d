"""What a fish's eye makes of plastic in a water: against the water, and one against another."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array, Draws
from pourwright.color.layer import Mixture, sight
from pourwright.color.slab import Placing
from pourwright.water.field import LightField
from pourwright.water.fish.eye import Eye
from pourwright.water.fish.surroundings import LEAST_LX, light_lx
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


def reaching(piece: Plastic, field: LightField, away_m: float) -> Array:
    """Radiance of plastic at a distance, on the scale of the field, (31,).

    What it sends back of the light on an upright face and what it lets through of the water behind
    it fades on the way; the water before it adds its own, so that all ends as that water:
    L exp(-c r) + L_h (1 - exp(-c r)) (Duntley, J. Opt. Soc. Am. 53 (1963) 214).
    """
    here = piece.back * field.face / np.pi + piece.through * field.level
    left = np.exp(-field.medium.beam_per_m * away_m)
    return np.asarray(here * left + field.level * (1 - left))


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
    draws = Draws(seed=_SEED)
    gaze = Gaze(draws, eye, field.face / np.pi, light_lx=lit)
    water = gaze.caught("water", field.level)
    caught = {
        name: gaze.caught(name, reaching(piece, field, away_m)) for name, piece in pieces.items()
    }
    return FishSight(
        lit,
        {name: gaze.steps(its, water).telling(draws) for name, its in caught.items()},
        {(a, b): gaze.steps(caught[a], caught[b]).telling(draws) for a, b in pairs},
    )
