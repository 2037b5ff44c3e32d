"""Make the color card of a look, as it is now, as it was, or as a lot was poured in it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from pourwright.actions.as_it_was import (
    Past,
    look_of_lot,
    poured_bait,
    poured_layers,
    poured_look,
    poured_plastic,
)
from pourwright.actions.look_card import CardDose, CardLayer, CardLot, LookCard
from pourwright.actions.look_version import LookVersion, look_versions, stored_look
from pourwright.actions.plan_batch import workplace
from pourwright.actions.port import Bench
from pourwright.actions.see_look import Glance, look_of, picture_of
from pourwright.actions.see_record import LOOK_MM, materials_of
from pourwright.actions.shape_of import own_shape_of
from pourwright.actions.shelf_color import calibrations
from pourwright.base.errors import BadInput, NoAnswer, NotFound
from pourwright.color.dose import Dose
from pourwright.color.plastic import RawPlastic
from pourwright.color.predict import PredictInput, predict
from pourwright.color.recipe import RecipeInput, recipe_scale
from pourwright.color.swatch import swatch
from pourwright.forecast.picture.picture_input import LookInput, Sight
from pourwright.forecast.picture.sheet import WHITE_CARD_HEX
from pourwright.forecast.request import LayerPart
from pourwright.plan.bait_part import bait_part
from pourwright.plan.layer import dose_of
from pourwright.plan.layer_share import LayerShares, layer_shares
from pourwright.plan.resolve import layer_parts
from pourwright.shop.look import Look
from pourwright.shop.mold import Bait
from pourwright.shop.own_shape import OwnShape

# What a forecast of color takes.
_THINNEST_MM, _THICKEST_MM = 0.2, 60.0
# As fine as a home printer shows on a page's width, and made in a few seconds.
PRINTED_PX = 960
_RECIPE_G = 100.0


@dataclass(frozen=True, slots=True)
class Begun:
    """A card that lacks its picture, which is reckoned when the bench is closed again."""

    card: LookCard
    asked: LookInput | None


@dataclass(frozen=True, slots=True)
class _Recipe:
    """Layers of a look and what they are poured in."""

    parts: tuple[LayerPart, ...]
    plastic: RawPlastic
    bait: Bait | None
    thickest_mm: float | None


def card_of_look(bench: Bench, id: str, *, bait: str, version: int, now: str) -> Begun:
    """The card of a look in a bait; `version` 0 stands for the newest, `bait` may be empty.

    Raises: NotFound; BadInput where a material is gone.
    """
    it = _version(bench, id, version)
    noun = bench.records.get(Bait.key, bait).noun if bait else None
    found = noun if isinstance(noun, Bait) else None
    own = own_shape_of(bench, found) if found else None
    parts = layer_parts(
        it.look, materials_of(bench, it.look), calibrations(bench),
        shares=_shares(it.look, found, own),
    )  # fmt: skip
    thickest = bait_part(found, own).thickest_mm if found else None
    recipe = _Recipe(parts, RawPlastic(), found, thickest)
    card = _card(bench, it.look, recipe, version=it.number, saved_at=it.at, now=now)
    if found is None:
        return Begun(replace(card, no_picture="no bait with a shape is picked"), None)
    try:
        return Begun(card, look_of(bench, it.look, found))
    except (BadInput, NoAnswer, NotFound) as error:
        return Begun(replace(card, no_picture=str(error)), None)


def card_of_lot(bench: Bench, id: str, number: int, *, now: str) -> Begun:
    """The card of a look as the lot of that sheet was poured in it.

    Raises: NotFound; BadInput where the lot was poured in another look.
    """
    sheet, past = bench.sheets.get(number), Past(bench)
    was = poured_look(past, sheet)
    if sheet.draft.get("look") != id or was is None or not isinstance(was.noun, Look):
        raise BadInput("lot", number, "was not poured in this look")
    bait = poured_bait(past, sheet)
    thickest = sheet.request["bait"].get("thickest_mm")
    recipe = _Recipe(poured_layers(sheet), poured_plastic(sheet), bait, thickest)
    made = _card(bench, was.noun, recipe, version=was.version, saved_at=was.at, now=now)
    card = replace(
        made,
        lot=CardLot(sheet.code, sheet.frozen_at),
        plastic=str(sheet.request["plastic"]["name"]),
    )
    try:
        return Begun(card, look_of_lot(past, sheet))
    except (BadInput, NoAnswer, NotFound) as error:
        return Begun(replace(card, no_picture=str(error)), None)


def finished(begun: Begun) -> LookCard:
    """The card with its picture, or with why it has none."""
    if begun.asked is None:
        return begun.card
    glance = Glance(sight=Sight(sheet_hex=WHITE_CARD_HEX), pixels=PRINTED_PX)
    try:
        return replace(begun.card, picture=picture_of(begun.asked, glance).picture)
    except (BadInput, NoAnswer, NotFound) as error:
        return replace(begun.card, no_picture=str(error))


def _shares(look: Look, bait: Bait | None, own: OwnShape | None) -> LayerShares:
    """As the bait parts them; as entered where it cannot have such layers."""
    try:
        return layer_shares(look, bait, own)
    except BadInput as error:
        return LayerShares(tuple(layer.share for layer in look.layers), f"as entered: {error.why}")


def _version(bench: Bench, id: str, version: int) -> LookVersion:
    stored, look = stored_look(bench, id)
    wanted = version or stored.version
    for it in look_versions(bench, id):
        if it.number == wanted:
            return it
    if version in {0, stored.version}:
        return LookVersion(stored.version, stored.changed_at, look, None)
    raise NotFound(f"{look.name!r} has no version {version}")


def _card(
    bench: Bench, look: Look, recipe: _Recipe, *, version: int, saved_at: str, now: str
) -> LookCard:
    thick = recipe.thickest_mm
    known = thick is not None and _THINNEST_MM <= thick <= _THICKEST_MM
    shown_mm = thick if known and thick is not None else LOOK_MM
    return LookCard(
        name=look.name,
        version=version,
        saved_at=saved_at,
        printed_at=now,
        note=look.note,
        demo=workplace(bench).demo,
        bait=recipe.bait.name if recipe.bait else "",
        plastic="",
        thick_mm=shown_mm,
        thick_known=known,
        layers=tuple(_layer(part, recipe.plastic, shown_mm) for part in recipe.parts),
        split=look.split,
    )


def _layer(part: LayerPart, plastic: RawPlastic, thick_mm: float) -> CardLayer:
    doses = tuple(dose_of(dose) for dose in part.doses)
    seen = predict(PredictInput(doses=doses, plastic=plastic, thick_mm=thick_mm))
    return CardLayer(
        name=part.name,
        share=part.share,
        doses=_doses(part, doses),
        swatch=swatch(doses, thick_mm=thick_mm, plastic=plastic),
        lab=seen.lab,
        calibrated=seen.calibrated,
    )


def _doses(part: LayerPart, doses: tuple[Dose, ...]) -> tuple[CardDose, ...]:
    if not doses:
        return ()
    scaled = recipe_scale(RecipeInput(plastic_g=_RECIPE_G, doses=doses)).doses
    return tuple(
        CardDose(dose.name, dose.sort.value, dose.per_100g, dose.measure.value, it.grams)
        for dose, it in zip(part.doses, scaled, strict=True)
    )
