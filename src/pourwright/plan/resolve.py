"""From the nouns a person picked to the plain numbers a batch is forecast from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TypeVar

from pourwright.base.band import exact
from pourwright.base.errors import BadInput
from pourwright.color.constants import Constants
from pourwright.color.film.powder import Powder
from pourwright.forecast.request import (
    BaitPart,
    BatchRequest,
    CupPart,
    DosePart,
    HandPart,
    InjectorPart,
    LayerPart,
    Measure,
    MoldPart,
    MoneyPart,
    OvenPart,
    PlasticPart,
    ReadingPart,
    RemeltPart,
    Sort,
    WaterTestPart,
)
from pourwright.heat.belief import CHECKED_BIAS_SPREAD_K
from pourwright.heat.cooked_cup import CookedCup
from pourwright.heat.history import Instrument
from pourwright.plan.bait_part import bait_part
from pourwright.plan.layer_share import LayerShares, layer_shares
from pourwright.shop.draft import Draft
from pourwright.shop.look import Dose, Look
from pourwright.shop.material import (
    EYES_A_BAIT,
    Colorant,
    Eyes,
    Flake,
    Hardener,
    HollowGlass,
    Material,
    Packing,
    PearlPowder,
    Plastic,
    RemeltPot,
    Salt,
)
from pourwright.shop.mold import Bait, Mold
from pourwright.shop.noun import Noun
from pourwright.shop.own_shape import OwnShape
from pourwright.shop.tool import Cup, Injector, Microwave, Scale, SpoonSet, Thermometer
from pourwright.shop.workplace import Workplace

N = TypeVar("N", bound=Noun)


@dataclass(frozen=True, slots=True)
class Picked:
    """The nouns a draft refers to, by id, the workplace, colors that pucks have taught, and the
    cups cooked in its microwave so far.
    """

    workplace: Workplace
    nouns: Mapping[str, Noun]
    measured: Mapping[str, Constants] = field(default_factory=dict)
    cups: tuple[CookedCup, ...] = ()

    def one(self, sort: type[N], id: str) -> N | None:
        """The picked noun, or none where nothing was picked."""
        noun = self.nouns.get(id) if id else None
        return noun if isinstance(noun, sort) else None


def request_of(draft: Draft, picked: Picked) -> BatchRequest:
    """The numbers of a draft.

    Raises: BadInput naming the entry that is missing or does not fit.
    """
    mold = picked.one(Mold, draft.mold)
    bait = picked.one(Bait, mold.bait) if mold else None
    return BatchRequest(
        bait=_bait(draft, mold, bait, picked),
        mold=_mold(draft, mold),
        count=draft.count,
        cup=_cup(draft, picked.one(Cup, draft.cup)),
        injector=_injector(draft, picked.one(Injector, draft.injector)),
        plastic=_plastic(draft, picked.one(Plastic, draft.plastic), picked.measured),
        layers=_layers(draft, bait, picked),
        remelt=_remelt(draft, picked.one(RemeltPot, draft.remelt)),
        oven=known_oven(
            draft,
            picked.one(Microwave, draft.microwave),
            picked.one(Thermometer, draft.thermometer),
            picked,
        ),
        hands=_hands(draft, picked.one(SpoonSet, draft.spoons), picked.one(Scale, draft.scale)),
        money=_money(
            draft,
            picked.workplace,
            picked.one(Packing, draft.packing),
            picked.one(Eyes, draft.eyes),
            credit_share(picked.workplace, picked.one(Look, draft.look)),
        ),
        ambient_c=picked.workplace.ambient_c,
    )


def _bait(draft: Draft, mold: Mold | None, bait: Bait | None, picked: Picked) -> BaitPart:
    if draft.bait_g is not None or draft.bait_ml is not None:
        return BaitPart(
            mass_g=None if draft.bait_g is None else exact(draft.bait_g),
            volume_ml=None if draft.bait_ml is None else exact(draft.bait_ml),
        )
    if mold is None:
        raise BadInput("mold", draft.mold, "pick a mold, or type the bait's weight or volume")
    if bait is None:
        raise BadInput("mold.bait", mold.bait, f"the mold {mold.name!r} has no bait; give it one")
    return bait_part(bait, picked.one(OwnShape, bait.own_shape))


def _layers(draft: Draft, bait: Bait | None, picked: Picked) -> tuple[LayerPart, ...]:
    """The layers of the look; a bait told by weight alone has no shape to part."""
    look = picked.one(Look, draft.look)
    if look is None:
        return ()
    own = picked.one(OwnShape, bait.own_shape) if bait else None
    return layer_parts(look, picked.nouns, picked.measured, shares=layer_shares(look, bait, own))


def _mold(draft: Draft, mold: Mold | None) -> MoldPart:
    if mold is None:
        if draft.cavities is None:
            raise BadInput("cavities", None, "pick a mold, or type its number of cavities")
        return MoldPart(cavities=draft.cavities, start_c=draft.mold_c)
    if mold.wet:
        raise BadInput("mold", mold.name, "is marked wet; dry it and clear the mark before pouring")
    return MoldPart(
        name=mold.name,
        cavities=draft.cavities or mold.cavities,
        owned=mold.owned,
        feed_ml=mold.feed_ml,
        mass_g=mold.mass_g,
        material=mold.material,
        open_face=mold.open_face,
        start_c=draft.mold_c,
        price_money=mold.price_money,
        life_shots=mold.life_shots,
    )


def _cup(draft: Draft, cup: Cup | None) -> CupPart:
    if cup is None:
        if draft.cup_ml is None:
            raise BadInput("cup", draft.cup, "pick a pouring cup, or type its brim volume")
        return CupPart(brim_ml=draft.cup_ml)
    if cup.wet:
        raise BadInput("cup", cup.name, "is marked wet; dry it and clear the mark before pouring")
    return CupPart(
        name=cup.name,
        brim_ml=cup.volume_ml,
        glass_g_per_ml=None if cup.mass_g is None else cup.mass_g / cup.volume_ml,
        diameter_ratio=None
        if cup.diameter_mm is None
        else cup.diameter_mm / 10 / cup.volume_ml ** (1 / 3),
    )


def _injector(draft: Draft, injector: Injector | None) -> InjectorPart | None:
    if draft.by_hand:
        return None
    if injector is None:
        return InjectorPart()
    return InjectorPart(
        name=injector.name,
        volume_ml=injector.volume_ml,
        bore_mm=injector.bore_mm,
        heel_ml=injector.heel_ml,
    )


def _plastic(
    draft: Draft, plastic: Plastic | None, measured: Mapping[str, Constants]
) -> PlasticPart:
    if plastic is None:
        return PlasticPart()
    return PlasticPart(
        material=draft.plastic,
        name=plastic.name,
        cold_density_g_ml=plastic.cold_density_g_ml,
        hardness_oo=plastic.hardness_oo,
        flash_point_c=plastic.flash_point_c,
        constants=measured.get(draft.plastic),
        price_per_kg_money=price_per_kg(plastic),
        on_hand_g=plastic.on_hand_g,
    )


def price_per_kg(material: Material) -> float | None:
    """Price of a kilogram, where package and price are known."""
    if material.package_g is None or material.package_price_money is None:
        return None
    return material.package_price_money / material.package_g * 1000


def layer_parts(
    look: Look,
    nouns: Mapping[str, Noun],
    measured: Mapping[str, Constants],
    *,
    shares: LayerShares | None = None,
) -> tuple[LayerPart, ...]:
    """The layers of a look with the materials they ask for, found by id; shares as entered if none.

    Raises: BadInput for a material that is not among the nouns.
    """
    found = shares or layer_shares(look, None)
    return tuple(
        LayerPart(
            name=layer.place.value,
            share=share,
            told_by=found.told_by,
            doses=tuple(dose_part(d, nouns, measured.get(d.material)) for d in layer.doses),
        )
        for layer, share in zip(look.layers, found.shares, strict=True)
    )


def dose_part(dose: Dose, nouns: Mapping[str, Noun], constants: Constants | None) -> DosePart:
    """A look's dose with what is known of its material.

    Raises: BadInput for a material that is not among the nouns.
    """
    material = nouns.get(dose.material)
    if not isinstance(material, Material):
        raise BadInput(
            "look", dose.material, "the look asks for a material that is no longer on the shelf"
        )
    spooned = isinstance(material, (Flake, PearlPowder, Salt))
    return DosePart(
        material=dose.material,
        name=material.name,
        sort=Sort(material.key),
        per_100g=dose.per_100g,
        measure=Measure(dose.measure.value),
        drop_mass_g=material.drop_mass_g if isinstance(material, Colorant) else None,
        spoon_g=material.spoon_g if spooned else None,  # type: ignore[attr-defined]
        density_g_ml=material.density_g_ml if isinstance(material, HollowGlass) else None,
        hardness_oo=material.hardness_oo if isinstance(material, Hardener) else None,
        price_per_kg_money=price_per_kg(material),
        on_hand_g=material.on_hand_g,
        color_hex=getattr(material, "color_hex", ""),
        opaque=isinstance(material, Colorant) and material.opaque,
        strength=material.strength if isinstance(material, Colorant) else None,
        glows=isinstance(material, Colorant) and material.glows,
        constants=constants,
        pearl=_flakes(material, constants),
        flake_mm=material.size_mm if isinstance(material, Flake) else None,
        film_um=material.film_um if isinstance(material, Flake) else None,
        bleeds=isinstance(material, Colorant) and material.bleeds,
        shake_first=isinstance(material, Colorant) and material.shake_first,
    )


def _flakes(material: Material, constants: Constants | None) -> Powder | None:
    """The flakes of a pearl powder: as its pucks taught them, else as it is sold."""
    if constants is not None and constants.pearl is not None:
        return constants.pearl
    return material.flakes() if isinstance(material, PearlPowder) else None


def _remelt(draft: Draft, pot: RemeltPot | None) -> RemeltPart:
    if pot is None:
        if draft.remelt_g > 0:
            raise BadInput("remelt", draft.remelt, "pick the remelt pot to take it from")
        return RemeltPart()
    if pot.on_hand_g is not None and draft.remelt_g > pot.on_hand_g:
        raise BadInput(
            "remelt_g", draft.remelt_g, f"the pot {pot.name!r} holds {pot.on_hand_g:g} g"
        )
    return RemeltPart(
        material=draft.remelt, name=pot.name, available_g=draft.remelt_g, heats=pot.heats,
        dose_share=pot.dose_share,
    )  # fmt: skip


def known_oven(
    draft: Draft, oven: Microwave | None, thermometer: Thermometer | None, picked: Picked
) -> OvenPart:
    """The oven with its thermometer, and the cups cooked in it so far."""
    bias = thermometer.bias_k if thermometer else None
    spread = (thermometer and thermometer.bias_spread_k) or CHECKED_BIAS_SPREAD_K
    reads = Instrument(thermometer.reads.value) if thermometer else Instrument.INFRARED
    start_c = picked.workplace.ambient_c
    if oven is None:
        return OvenPart(
            thermometer_bias_k=bias, thermometer_spread_k=max(spread, 0.1), instrument=reads,
            thermometer=draft.thermometer, start_c=start_c, target_c=draft.target_c,
        )  # fmt: skip
    return OvenPart(
        name=oven.name,
        label_w=oven.label_w,
        water_tests=tuple(
            WaterTestPart(
                water_g=t.water_g, start_c=t.start_c, end_c=t.end_c, on_s=t.on_s,
                vessel_g=t.vessel_g, ambient_c=t.ambient_c,
            )
            for t in oven.water_tests
        ),
        readings=tuple(
            ReadingPart(
                plastic_g=r.plastic_g, on_s=r.on_s, surface_c=r.surface_c, start_c=r.start_c
            )
            for r in oven.readings
        ),
        start_c=start_c,
        thermometer_bias_k=bias,
        thermometer_spread_k=max(spread, 0.1),
        instrument=reads,
        thermometer=draft.thermometer,
        cups=picked.cups,
        target_c=draft.target_c,
    )  # fmt: skip


def _hands(draft: Draft, spoons: SpoonSet | None, scale: Scale | None) -> HandPart:
    return HandPart(
        reject_share=draft.reject_share,
        warmup_shots=draft.warmup_shots,
        spoon_sizes_tsp=spoons.sizes_tsp if spoons else (),
        scale_step_g=scale.resolution_g if scale else 0.1,
    )


def credit_share(workplace: Workplace, look: Look | None) -> float:
    """Worth of what a batch leaves for remelt: none where its layers mix their colors."""
    recipes = {layer.doses for layer in look.layers} if look else set()
    return 0.0 if len(recipes) > 1 else workplace.remelt_credit_share


def _money(
    draft: Draft,
    workplace: Workplace,
    packing: Packing | None,
    eyes: Eyes | None,
    remelt_credit_share: float,
) -> MoneyPart:
    packed = packing.package_price_money / packing.pieces / packing.baits_each if packing else 0.0
    eyed = EYES_A_BAIT * eyes.package_price_money / eyes.pieces if eyes else 0.0
    return MoneyPart(
        labor_per_h_money=workplace.labor_per_h_money,
        power_price_per_kwh_money=workplace.power_price_per_kwh_money,
        packing_per_bait_money=packed,
        eyes_per_bait_money=eyed,
        overhead_money=workplace.overhead_per_batch_money,
        remelt_credit_share=remelt_credit_share,
        remelt_used_share=workplace.remelt_credit_share,
        margin=workplace.margin if draft.margin is None else draft.margin,
        fee_share=workplace.fee_share,
        fee_fixed_money=workplace.fee_fixed_money,
    )
