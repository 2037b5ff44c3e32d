"""Whether a look in a bait, or a lot, can be pictured; if not, why."""

from __future__ import annotations

import functools

from pourwright.actions.as_it_was import Past, poured_bait, poured_layers, poured_look
from pourwright.actions.port import Bench
from pourwright.actions.shape_of import own_shape_of
from pourwright.base.errors import BadInput, NoAnswer, NotFound
from pourwright.body.division import Place
from pourwright.body.division_of import divided
from pourwright.body.split import Split
from pourwright.forecast.picture.picture_input import PictureLayer
from pourwright.plan.bait_build import bait_build
from pourwright.plan.layer_share import layer_shares
from pourwright.shop.look import Look
from pourwright.shop.mold import Bait
from pourwright.shop.own_shape import OwnShape
from pourwright.shop.sheet import Sheet

# A list asks for the same looks again and again.
KEPT = 256


def no_picture_of(bench: Bench, look: Look, bait: Bait) -> str:
    """Why the look cannot be pictured in the bait; empty where it can."""
    try:
        return _no_picture(look, bait, own_shape_of(bench, bait))
    except NotFound as error:
        return str(error)


def no_picture_of_lot(past: Past, sheet: Sheet) -> str:
    """Why a lot cannot be pictured as it was poured; empty where it can."""
    bait = poured_bait(past, sheet)
    if bait is None:
        return f"lot {sheet.code} has no bait with a shape, and a picture needs one"
    look = poured_look(past, sheet)
    split = look.noun.split if look and isinstance(look.noun, Look) else Split()
    layers = tuple((part.name, part.share) for part in poured_layers(sheet))
    try:
        return _no_division(bait, own_shape_of(past.bench, bait), layers, split)
    except NotFound as error:
        return str(error)


@functools.lru_cache(maxsize=KEPT)
def _no_picture(look: Look, bait: Bait, own: OwnShape | None) -> str:
    try:
        shares = layer_shares(look, bait, own).shares
    except BadInput as error:
        return error.why
    places = (layer.place.value for layer in look.layers)
    return _no_division(bait, own, tuple(zip(places, shares, strict=True)), look.split)


@functools.lru_cache(maxsize=KEPT)
def _no_division(
    bait: Bait, own: OwnShape | None, layers: tuple[tuple[str, float], ...], split: Split
) -> str:
    build = bait_build(bait, own)
    if build is None:
        return f"{bait.name} has no shape yet, and a picture needs one"
    try:
        found = tuple(PictureLayer(place=Place(place), share=share) for place, share in layers)
        divided(
            build,
            tuple(it.place.value for it in found),
            split,
            shares=tuple(it.share for it in found),
        )
    except BadInput as error:
        return error.why
    except NoAnswer as error:
        return str(error)
    return ""
