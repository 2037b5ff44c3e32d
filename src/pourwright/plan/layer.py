"""One layer of a look: its share of every shot, its cups, and what goes into them."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from pourwright.base.assume import drawn
from pourwright.base.band import Band
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.units import convert
from pourwright.color.colorant import Colorant
from pourwright.color.dose import Dose, Measured
from pourwright.color.film.powder import Powder
from pourwright.color.kinds.dye import Dye
from pourwright.color.kinds.flake import Flake
from pourwright.color.kinds.fluorescent import Fluorescent
from pourwright.color.kinds.glass import HollowGlass
from pourwright.color.kinds.measured import Measured as ByPucks
from pourwright.color.kinds.pearl import Pearl
from pourwright.color.kinds.pearl_film import PearlFilm
from pourwright.color.kinds.pigment import Pigment
from pourwright.color.kinds.salt import Salt
from pourwright.color.recipe import RecipeInput, recipe_scale
from pourwright.color.spoon import KITCHEN_SPOONS
from pourwright.fill.account import Account, Bench, account
from pourwright.forecast.mix import Mix, mix_of
from pourwright.forecast.request import BatchRequest, DosePart, LayerPart, Sort
from pourwright.matter import plastisol
from pourwright.plan.batch_plan import CupPlan, WeighLine

PLAIN = LayerPart(name="body", share=1.0)
LEAST_SCALED_G = 5.0


@dataclass(frozen=True, slots=True)
class LayerPlan:
    """A layer, accounted for; `bait_g` is its part of one bait."""

    part: LayerPart
    mix: Mix
    bench: Bench
    account: Account
    bait_g: Array
    feed_g: Array
    heel_g: Array
    residue_g: Array

    @property
    def plastic_g(self) -> Array:
        """Everything heated for the layer, additives included, drawn."""
        done, cavities = self.account, self.bench.cavities
        shot = cavities * self.bait_g + self.feed_g
        return np.asarray(done.shots * shot + len(done.cups) * (self.residue_g + self.heel_g))


def layer_plan(
    draws: Draws, request: BatchRequest, part: LayerPart, reject_share: float
) -> LayerPlan:
    """The account of one layer; all layers make the same shots.

    Raises: NoAnswer if a shot does not fit the injector or the cup.
    """
    plastic = drawn(draws, request.plastic, "plastic ")["cold_density_g_ml"]
    mix = mix_of(draws, part, plastic)
    cold = mix.density_g_ml
    hot = cold * (plastisol.HOT_DENSITY_G_ML.typical / plastisol.COLD_DENSITY_G_ML.typical)
    packed = plastisol.PACKED_RATIO.drawn(draws)
    mold = drawn(draws, request.mold, "mold ")
    cup = drawn(draws, request.cup, "cup ")
    bait = part.share * whole_bait_g(draws, request, cold * packed)
    feed = part.share * mold["feed_ml"] * cold * packed
    injector = request.injector
    heel_ml = drawn(draws, injector, "injector ")["heel_ml"] if injector else draws.known(0.0)
    bench = Bench(
        bait_g=float(bait[0]),
        feed_g=float(feed[0]),
        cavities=request.mold.cavities,
        molds=request.mold.owned,
        load_ml=injector.volume_ml if injector else 0.0,
        heel_ml=float(heel_ml[0]),
        cup_ml=request.cup.brim_ml,
        fill_share=request.cup.fill_share,
        residue_g=float(cup["residue_g"][0]),
        cold_g_ml=float(cold[0]),
        hot_g_ml=float(hot[0]),
    )
    done = account(
        bench,
        count=request.count,
        reject_share=reject_share,
        warmup_shots=request.hands.warmup_shots,
    )
    return LayerPlan(part, mix, bench, done, bait, feed, heel_ml * hot, cup["residue_g"])


def whole_bait_g(draws: Draws, request: BatchRequest, packed_g_ml: Array) -> Array:
    """Weight of one bait: entered, or its volume at what the cavity packs."""
    bait = request.bait
    if bait.mass_g is not None:
        return _drawn_band(draws, "weight of one bait", bait.mass_g)
    if bait.volume_ml is None:
        raise TypeError("a bait part has a weight or a volume")
    return np.asarray(_drawn_band(draws, "volume of one bait", bait.volume_ml) * packed_g_ml)


def _drawn_band(draws: Draws, label: str, given: Band) -> Array:
    if given.low == given.high:
        return draws.known(given.typical)
    return draws.of(label, Doubt(label, given, "weigh five baits and divide by five"))


def cup_plans(
    request: BatchRequest, layer: LayerPlan, *, first: int, remelt_g: float
) -> tuple[CupPlan, ...]:
    """The cups of a layer, numbered on from the batch's earlier ones."""
    plans = []
    left = remelt_g
    for i, share in enumerate(layer.account.cups):
        plastic = share.plastic_g / layer.mix.cup_per_plastic
        remelt = min(left, request.remelt.largest_share * plastic)
        left -= remelt
        volume = share.plastic_g / layer.bench.cold_g_ml
        plans.append(
            CupPlan(
                number=first + i,
                layer=layer.part.name,
                shots=share.shots,
                shot_g=round(layer.bench.shot_g, 3),
                waves=share.waves,
                rewarms=share.waves - 1,
                virgin_g=round(plastic - remelt, 3),
                remelt_g=round(remelt, 3),
                additives_g=round(share.plastic_g - plastic, 3),
                total_g=round(share.plastic_g, 3),
                fill_line_ml=plastic / layer.bench.cold_g_ml,
                fill_share=volume / request.cup.brim_ml,
                lines=weigh_lines(request, layer, plastic - remelt),
            )
        )
    return tuple(plans)


def weigh_lines(request: BatchRequest, layer: LayerPlan, virgin_g: float) -> tuple[WeighLine, ...]:
    """What to weigh, drip and spoon for so much fresh plastic; remelt carries its own color."""
    if not layer.part.doses or virgin_g < LEAST_SCALED_G:
        return ()
    scaled = recipe_scale(
        RecipeInput(
            plastic_g=virgin_g,
            doses=tuple(dose_of(d) for d in layer.part.doses),
            spoon_sizes_tsp=_fitting(request.hands.spoon_sizes_tsp, virgin_g),
            scale_step_g=request.hands.scale_step_g,
            thick_mm=request.bait.thickest_mm or 10.0,
            seed=request.seed,
        )
    )
    return tuple(
        WeighLine(
            material=d.material,
            name=d.name,
            sort=d.sort.value,
            grams=s.grams.typical,
            scale_g=s.scale_g,
            drops=s.drops,
            spoons=s.spoons,
            error_share=s.error_share,
            note="; ".join(filter(None, (_handling(d), s.note))),
        )
        for d, s in zip(layer.part.doses, scaled.doses, strict=True)
    )


def _fitting(sizes_tsp: tuple[float, ...], batch_g: float) -> tuple[float, ...]:
    """The spoons that hold less than the batch; a small last cup needs no big spoon."""
    batch_ml = batch_g / plastisol.COLD_DENSITY_G_ML.typical
    sizes = sizes_tsp or KITCHEN_SPOONS
    return tuple(s for s in sizes if convert(s, "tsp", "ml") <= batch_ml) or (min(sizes),)


def dose_of(part: DosePart) -> Dose:
    """A dose as the color room knows it."""
    return Dose(
        name=part.name,
        per_100g=part.per_100g,
        measure=Measured(part.measure.value),
        drop_mass_g=part.drop_mass_g,
        spoon_g=part.spoon_g,
        colorant=_colorant(part),
    )


def _colorant(part: DosePart) -> Colorant | None:
    if part.constants is not None:
        plain = Powder() if part.sort is Sort.PEARL_POWDER else None
        return ByPucks(constants=replace(part.constants, pearl=part.pearl or plain))
    match part.sort:
        case Sort.SALT:
            return Salt()
        case Sort.HOLLOW_GLASS:
            return HollowGlass()
        case Sort.PEARL_POWDER if part.pearl is not None:
            return PearlFilm.of(part.pearl)
        case _ if not part.color_hex:
            return None
        case Sort.FLAKE:
            return Flake(color_hex=part.color_hex, film_um=part.film_um, size_mm=part.flake_mm)
        case Sort.PEARL_POWDER:
            return Pearl(color_hex=part.color_hex, strength=part.strength)
        case Sort.COLORANT:
            kind = Fluorescent if part.glows else Pigment if part.opaque else Dye
            return kind(color_hex=part.color_hex, strength=part.strength)
        case _:
            return None


def _handling(part: DosePart) -> str:
    words = []
    if part.shake_first:
        words.append("shake first")
    if part.bleeds:
        words.append("bleeds: bag apart")
    if part.sort in {Sort.SALT, Sort.FLAKE, Sort.PEARL_POWDER}:
        words.append("bone dry")
    if part.sort is Sort.HOLLOW_GLASS:
        words.append("dust: mask and eye protection as the data sheet says")
    if part.sort is Sort.SCENT:
        words.append("in last, off the heat")
    return "; ".join(words)
