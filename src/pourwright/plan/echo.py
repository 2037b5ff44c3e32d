"""A faint echo of a vein in the belly: the same pearl powders at a small share of their dose."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping

from pourwright.base.errors import BadInput
from pourwright.body.division import Place
from pourwright.shop.look import Dose, Look, LookLayer
from pourwright.shop.material import PearlPowder
from pourwright.shop.noun import Noun

# A highlight that matches the vein without hiding the belly; common practice, no source.
ECHO_SHARE = 0.1


def echo_vein(look: Look, shelf: Mapping[str, Noun], *, dose_share: float = ECHO_SHARE) -> Look:
    """The look with every pearl powder of its vein in its belly, at that share of the vein's dose.

    A fainter dose of the same powder that the belly holds already is an echo of before and gives
    way to the new one. Share 0.01 to 0.9.
    Raises: BadInput for a look without a vein, a belly or a pearl powder in the vein, and for a
    belly that holds as much of the powder as the vein.
    """
    if not 0.01 <= dose_share <= 0.9:
        raise BadInput("dose_share", dose_share, "must lie between 0.01 and 0.9")
    vein, belly = _layer(look, Place.VEIN), _layer(look, Place.BELLY)
    powders = [d for d in vein.doses if isinstance(shelf.get(d.material), PearlPowder)]
    if not powders:
        raise BadInput("layers", Place.VEIN.value, "has no pearl powder to echo in the belly")
    for powder in powders:
        belly = _with_echo(belly, powder, dose_share)
    layers = tuple(belly if one.place is Place.BELLY else one for one in look.layers)
    return dataclasses.replace(look, layers=layers)


def _layer(look: Look, place: Place) -> LookLayer:
    found = next((layer for layer in look.layers if layer.place is place), None)
    if found is None:
        raise BadInput("layers", [str(one.place) for one in look.layers], f"has no {place}")
    return found


def _with_echo(belly: LookLayer, powder: Dose, dose_share: float) -> LookLayer:
    echo = dataclasses.replace(powder, per_100g=powder.per_100g * dose_share)
    before = [d for d in belly.doses if d.material == powder.material]
    if any(d.measure is not powder.measure or d.per_100g >= powder.per_100g for d in before):
        why = "is in the belly already, not fainter than in the vein or measured in another way"
        raise BadInput("layers", powder.material, why)
    kept = tuple(d for d in belly.doses if d.material != powder.material)
    return dataclasses.replace(belly, doses=(*kept, echo))
