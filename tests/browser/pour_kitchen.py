"""A kitchen behind a guided pour: its cups heat and cool by the laptop's clock, whoever reads them.

The physics are those of `speed.kitchen`, which shares no line and no number with the product. All
records here are invented; what a person could weigh or read off a label is true of the kitchen.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from speed import kitchen
from speed.kitchen.glass import Glass as Jar

from pourwright.actions.plan_batch import WORKPLACE
from pourwright.body.division import Place
from pourwright.shop.draft import Draft
from pourwright.shop.look import Dose, Look, LookLayer, Measure
from pourwright.shop.material import Colorant, PearlPowder, Plastic, Softener
from pourwright.shop.mold import Bait, Mold
from pourwright.shop.noun import Noun
from pourwright.shop.tool import (
    Cup,
    Glass,
    Injector,
    Microwave,
    Scale,
    SpoonSet,
    Thermometer,
    ThermometerKind,
)
from pourwright.shop.workplace import Workplace

INVENTED = "Invented for a test of a whole pour."
ROOM_C = 22.0
GLASS_SUITS_G = 250.0
TWO_CUPS = Draft(
    name="Invented: two-tone grub", mold="mold", count=21, cup="cup", look="two-tone",
    plastic="plastic", microwave="oven", thermometer="gun", injector="injector", spoons="spoons",
    scale="scale", warmup_shots=0, reject_share=0.1,
)  # fmt: skip
ONE_CUP = Draft(
    name="Invented: plain grub", mold="mold", count=12, cup="cup", look="plain", plastic="plastic",
    microwave="oven", thermometer="gun", injector="injector", spoons="spoons", scale="scale",
    warmup_shots=0, reject_share=0.0,
)  # fmt: skip


@dataclass
class Standing:
    """A cup of the kitchen and the laptop's second it has been followed to."""

    cups: kitchen.Cups
    at: float


@dataclass
class Kitchen:
    """One oven with its glass, plastic and infrared gun, and the cups that stand in it."""

    seed: int
    ovens: kitchen.Ovens = field(init=False)
    standing: dict[int, Standing] = field(default_factory=dict)
    rng: np.random.Generator = field(init=False)

    def __post_init__(self) -> None:
        self.ovens = kitchen.draw_ovens([self.seed], plastic_g=GLASS_SUITS_G)
        self.rng = np.random.default_rng([17, self.seed])

    def fill(self, cup: int, grams: float, at: float) -> None:
        """Raw plastic in a cup."""
        fresh = kitchen.fresh_cups(self.ovens, cup - 1, grams, ROOM_C)
        self.standing[cup] = Standing(fresh, at)

    def stand(self, cup: int, at: float) -> None:
        """It stands on the bench until then."""
        it = self.standing[cup]
        it.cups, it.at = kitchen.rest(it.cups, max(0.0, at - it.at)), max(it.at, at)

    def heat(self, cup: int, at: float, on_s: float) -> None:
        """The oven starts at that moment and runs that long."""
        self.stand(cup, at)
        it = self.standing[cup]
        it.cups, it.at = kitchen.heat(it.cups, on_s), it.at + on_s

    def read_f(self, cup: int, at: float) -> int:
        """Stirred and read then, in whole degrees Fahrenheit as the gun shows them."""
        self.stand(cup, at)
        it = self.standing[cup]
        it.cups = kitchen.stir(it.cups)
        read_c = float(kitchen.read_while_stirring(it.cups, self.rng)[0])
        return round(read_c * 1.8 + 32)

    def draw(self, cup: int, at: float, grams: float) -> None:
        """A load is drawn."""
        self.stand(cup, at)
        it = self.standing[cup]
        it.cups = kitchen.draw_off(it.cups, grams)

    def mean_c(self, cup: int) -> float:
        """What only the kitchen knows."""
        return float(kitchen.mean_c(self.standing[cup].cups)[0])

    def peak_c(self, cup: int) -> float:
        """The hottest any of its plastic has been."""
        return float(self.standing[cup].cups.peak_c[0])


def records(it: Kitchen) -> dict[str, Noun]:
    """The bench of that kitchen by id."""
    oven, glass, plastic = it.ovens.oven, it.ovens.glass, it.ovens.plastic
    return {
        WORKPLACE: Workplace(name="Invented bench", ambient_c=ROOM_C, demo=True),
        "oven": Microwave(name="Invented oven", label_w=float(oven.label_w[0]), note=INVENTED),
        "cup": Cup(
            name="Invented cup", volume_ml=_brim_ml(glass), mass_g=_weighs_g(glass),
            diameter_mm=float(2000 * glass.inner_m[0]), glass=Glass.BOROSILICATE, note=INVENTED,
        ),
        "gun": Thermometer(name="Invented gun", reads=ThermometerKind.INFRARED, note=INVENTED),
        "injector": Injector(
            name="Invented injector", volume_ml=180, bore_mm=38, heel_ml=5, note=INVENTED
        ),
        "spoons": SpoonSet(name="Invented spoons", sizes_tsp=(1, 0.5, 0.25, 0.125)),
        "scale": Scale(name="Invented scale", resolution_g=0.1),
        "bait": Bait(name="Invented grub", mass_g=12.0, thickest_mm=10.5, note=INVENTED),
        "mold": Mold(
            name="Invented grub mold", bait="bait", cavities=8, owned=2, feed_ml=4, mass_g=1500,
            note=INVENTED,
        ),
        "plastic": Plastic(
            name="Invented plastisol", flash_point_c=213, hardness_oo=38,
            cold_density_g_ml=round(float(plastic.density_kg_m3[0]) / 1000, 3),
            data_sheet="Invented sheet", note=INVENTED,
        ),
        "softener": Softener(name="Invented softener", note=INVENTED),
        "dark": Colorant(name="Invented bark", color_hex="#6b4a2b", drop_mass_g=0.04),
        "pale": Colorant(name="Invented chalk", color_hex="#f4f3ee", opaque=True,
                         drop_mass_g=0.045),
        "pearl": PearlPowder(name="Invented pearl", color_hex="#d9dde2", spoon_g=1.9),
        "two-tone": Look(name="Invented two-tone", layers=(
            LookLayer(place=Place.BACK, share=0.45, doses=(
                Dose(material="dark", per_100g=1.6, measure=Measure.DROPS),)),
            LookLayer(place=Place.BELLY, share=0.55, doses=(
                Dose(material="pale", per_100g=1.2, measure=Measure.DROPS),
                Dose(material="pearl", per_100g=0.3, measure=Measure.SPOONS),
                Dose(material="softener", per_100g=5, measure=Measure.GRAMS))),
        ), note=INVENTED),
        "plain": Look(name="Invented plain", layers=(
            LookLayer(place=Place.BODY, doses=(
                Dose(material="dark", per_100g=1.2, measure=Measure.DROPS),)),
        ), note=INVENTED),
    }  # fmt: skip


def _brim_ml(glass: Jar) -> float:
    return round(float(1e6 * math.pi * glass.inner_m[0] ** 2 * glass.tall_m[0]))


def _weighs_g(glass: Jar) -> float:
    """What a scale says of the empty cup."""
    inner_m, wall_m = float(glass.inner_m[0]), float(glass.wall_m[0])
    outer_m2 = math.pi * (inner_m + wall_m) ** 2
    wall_m3 = (outer_m2 - math.pi * inner_m**2) * float(glass.tall_m[0])
    floor_m3 = outer_m2 * float(glass.floor_m[0])
    return round(float(1000 * glass.density_kg_m3[0]) * (wall_m3 + floor_m3))
