"""The invented shop's molds, baits and looks, beside the demo bench's tools and shelf."""

from __future__ import annotations

import dataclasses
import random
from collections.abc import Mapping

from pourwright.actions.demo import DEMO_DRAFT, demo_nouns
from pourwright.body.division import Place
from pourwright.shop.draft import Draft
from pourwright.shop.look import Dose, Look, LookLayer, Measure
from pourwright.shop.mold import Bait, Mold
from pourwright.shop.noun import Noun
from speed.shop_year.scale import Scale

INVENTED = "Invented for a shop's year."
WATERS = ("Reed", "Otter", "Slate", "Cinder", "Willow", "Heron", "Gravel", "Fog", "Birch", "Mill")
SHADES = ("moss", "dusk", "clay", "smoke", "pearl", "copper", "rose", "ink", "straw", "frost")
SHAPES = (
    "straight worm", "short worm", "slim worm", "fat worm", "paddle", "small paddle",
    "long paddle", "river worm", "pond worm", "night worm", "dawn paddle", "creek paddle",
)  # fmt: skip
TINTS = ("demo-color-moss", "demo-color-brown", "demo-color-white", "demo-color-rose")


def shop_nouns(scale: Scale, rng: random.Random) -> dict[str, Noun]:
    """Every record the year begins with, by id."""
    molds = _molds(scale, rng)
    return {**demo_nouns(), **molds, **_looks(scale, rng)}


def draft(mold: str, look: str, count: int) -> Draft:
    """The plan of a batch of the shop."""
    return dataclasses.replace(DEMO_DRAFT, name="", mold=mold, look=look, count=count)


def _molds(scale: Scale, rng: random.Random) -> Mapping[str, Noun]:
    found: dict[str, Noun] = {}
    for n in range(scale.molds):
        name = SHAPES[n % len(SHAPES)]
        grams = round(rng.uniform(3, 14), 1)
        found[f"year-bait-{n}"] = Bait(
            name=f"Reed Run {name}", mass_g=grams, thickest_mm=round(7 + grams / 2, 1),
            note=INVENTED,
        )  # fmt: skip
        found[f"year-mold-{n}"] = Mold(
            name=f"Reed Run {name} mold", bait=f"year-bait-{n}", cavities=rng.choice((2, 4, 6)),
            owned=rng.choice((1, 2, 3)), feed_ml=5, mass_g=1100, life_shots=5000,
            price_money=rng.choice((45, 60, 85)), note=INVENTED,
        )  # fmt: skip
    return found


def _looks(scale: Scale, rng: random.Random) -> Mapping[str, Noun]:
    return {f"year-look-{n}": _look(n, rng) for n in range(scale.looks)}


def _look(n: int, rng: random.Random) -> Look:
    names = f"{WATERS[n % len(WATERS)]} {SHADES[n // len(WATERS) % len(SHADES)]}"
    split = {Place.BACK: 0.4, Place.BELLY: 0.6} if n % 3 == 2 else {Place.BODY: 1.0}
    layers = tuple(_layer(place, share, rng) for place, share in split.items())
    return Look(name=names, layers=layers, note=INVENTED)


def _layer(place: Place, share: float, rng: random.Random) -> LookLayer:
    doses = [
        Dose(material=tint, per_100g=rng.randint(1, 8), measure=Measure.DROPS)
        for tint in rng.sample(TINTS, rng.randint(1, 2))
    ]
    if rng.random() < 0.5:
        doses.append(Dose(material="demo-flake-copper", per_100g=0.06, measure=Measure.SPOONS))
    return LookLayer(place=place, share=share, doses=tuple(doses))
