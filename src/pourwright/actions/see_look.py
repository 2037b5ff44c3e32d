"""A look in a bait, as it would come out of the mold."""

from __future__ import annotations

from dataclasses import dataclass, field

from pourwright.actions.port import Bench
from pourwright.actions.shape_of import body_of, own_shape_of
from pourwright.actions.shelf_color import color_shelf
from pourwright.base.errors import NoAnswer
from pourwright.body.division import Place
from pourwright.color.plastic import RawPlastic
from pourwright.forecast.picture.light_water import UnderWater
from pourwright.forecast.picture.picture import PictureAnswer, look_picture
from pourwright.forecast.picture.picture_input import (
    LookInput,
    PictureInput,
    PictureLayer,
    Sight,
)
from pourwright.plan.layer_share import layer_shares
from pourwright.shop.look import Look
from pourwright.shop.mold import Bait


@dataclass(frozen=True, slots=True, kw_only=True)
class Glance:
    """How a look is looked at; `water` instead of the hand."""

    sight: Sight = field(default_factory=Sight)
    water: UnderWater | None = None
    pixels: int = 640


def look_of(bench: Bench, look: Look, bait: Bait, *, plastic: str = "") -> LookInput:
    """A look in a bait, as every picture takes it; `plastic` is the id of one with pucks.

    Raises: NoAnswer for a bait without a shape; NotFound for a material that is gone.
    """
    body = body_of(bench, bait)
    if body is None:
        raise NoAnswer(f"{bait.name} has no shape yet, and a picture needs one")
    shelf = color_shelf(bench)
    shares = layer_shares(look, bait, own_shape_of(bench, bait)).shares
    return LookInput(
        family=body.family,
        file=body.file,
        placing=body.placing,
        layers=tuple(
            PictureLayer(
                place=Place(layer.place.value),
                share=share,
                doses=tuple(shelf.dose(dose) for dose in layer.doses),
            )
            for layer, share in zip(look.layers, shares, strict=True)
        ),
        split=look.split,
        plastic=shelf.plastic(plastic) if plastic else RawPlastic(),
    )


def picture_input(asked: LookInput, glance: Glance) -> PictureInput:
    """What is asked of the picture; it can be reckoned when the bench is closed again."""
    return PictureInput(
        family=asked.family,
        file=asked.file,
        unit=asked.unit,
        placing=asked.placing,
        layers=asked.layers,
        split=asked.split,
        plastic=asked.plastic,
        seed=asked.seed,
        sight=glance.sight,
        water=glance.water,
        pixels=glance.pixels,
    )


def picture_of(asked: LookInput, glance: Glance) -> PictureAnswer:
    """The picture. Raises: BadInput or NoAnswer for layers that the bait cannot have."""
    return look_picture(picture_input(asked, glance))
