"""What a maker does to a cup outside the oven."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from speed.kitchen.cups import G_PER_KG, Cups, levelled
from speed.kitchen.draws import Array, luck
from speed.kitchen.grid import PLASTIC, plastic_mean, stretched
from speed.kitchen.plastic import enthalpy_j_kg, temp_c_at
from speed.kitchen.ripening import Ripeness

_STIR = 6


def stir(cups: Cups, who: NDArray[np.bool_] | None = None) -> Cups:
    """After one stir of every cup or of those `who` is true for; glass stays as it is.

    Each stir brings heat and ripeness 80 to 97 % of the way to their mean.
    """
    chosen = np.ones(len(cups), bool) if who is None else np.asarray(who, bool)
    chance = luck(cups.ovens.seed, _STIR, cups.number, cups.stirs)
    reach = np.where(chosen, chance.uniform(0.80, 0.97), 0)
    plastic, ripe = cups.ovens.plastic, cups.ripeness

    def drawn_in(values: Array) -> Array:
        return values + reach * (plastic_mean(values) - values)

    heat = drawn_in(enthalpy_j_kg(plastic, cups.plastic_c))
    mixed = replace(
        cups,
        stirs=cups.stirs + chosen,
        temp_c=_with_plastic(cups, np.where(chosen, temp_c_at(plastic, heat), cups.plastic_c)),
        ripeness=Ripeness(drawn_in(ripe.quick), drawn_in(ripe.slow), drawn_in(ripe.fused)),
    )
    return levelled(mixed)


def draw_off(cups: Cups, grams: ArrayLike) -> Cups:
    """With `grams` taken out evenly from all of the cup; the level falls, the field stays."""
    kg = _kg(cups, grams)
    taken = kg * plastic_mean(enthalpy_j_kg(cups.ovens.plastic, cups.plastic_c))
    return levelled(
        replace(cups, plastic_kg=cups.plastic_kg - kg, carried_j=cups.carried_j - taken)
    )


def add(cups: Cups, grams: ArrayLike, temp_c: ArrayLike) -> Cups:
    """With raw plastic poured on top as a layer of its own until it is stirred in."""
    kg, plastic, ripe = _kg(cups, grams), cups.ovens.plastic, cups.ripeness
    ratio = (cups.plastic_kg + kg) / cups.plastic_kg
    brings = enthalpy_j_kg(plastic, np.broadcast_to(np.asarray(temp_c, float), kg.shape))

    def layered(values: Array, new: ArrayLike) -> Array:
        beyond = np.broadcast_to(new, values.shape[1:])
        return np.where(kg > 0, stretched(values, beyond, ratio), values)

    heat = layered(enthalpy_j_kg(plastic, cups.plastic_c), brings)
    return levelled(
        replace(
            cups,
            plastic_kg=cups.plastic_kg + kg,
            temp_c=_with_plastic(cups, np.where(kg > 0, temp_c_at(plastic, heat), cups.plastic_c)),
            ripeness=Ripeness(
                layered(ripe.quick, 0), layered(ripe.slow, 0), layered(ripe.fused, 0)
            ),
            carried_j=cups.carried_j + kg * brings,
        )
    )


def _kg(cups: Cups, grams: ArrayLike) -> Array:
    kg = np.broadcast_to(np.asarray(grams, float) / G_PER_KG, (len(cups),))
    if not np.all(kg >= 0):
        raise ValueError("grams are negative or no number")
    return kg


def _with_plastic(cups: Cups, plastic_c: Array) -> Array:
    temp_c = cups.temp_c.copy()
    temp_c[PLASTIC] = plastic_c
    return temp_c
