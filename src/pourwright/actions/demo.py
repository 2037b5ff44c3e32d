"""An invented demo bench: every name, price and reading here is made up for looking around."""

from __future__ import annotations

from pourwright.actions.demo_bags import fill_demo_bags
from pourwright.actions.demo_cups import fill_demo_lot
from pourwright.actions.demo_day import fill_demo_day
from pourwright.actions.demo_orders import fill_demo_orders
from pourwright.actions.demo_past import fill_demo_past
from pourwright.actions.demo_prices import demo_prices
from pourwright.actions.demo_pucks import demo_pucks
from pourwright.actions.demo_tax import fill_demo_sales
from pourwright.actions.invented import INVENTED
from pourwright.actions.plan_batch import WORKPLACE
from pourwright.actions.port import World
from pourwright.body.division import Place
from pourwright.body.families.paddle_tail import PaddleTail
from pourwright.body.families.worm import Worm
from pourwright.fill.clamp_kinds import Bar, Bolt
from pourwright.forecast.mold_feed import MoldFeed
from pourwright.shop.draft import Draft
from pourwright.shop.look import Dose, Look, LookLayer, Measure
from pourwright.shop.material import (
    BagOil,
    Colorant,
    Eyes,
    Flake,
    Hardener,
    HollowGlass,
    InjectorLubricant,
    MoldRelease,
    Packing,
    PearlPowder,
    Plastic,
    RemeltPot,
    Salt,
    Scent,
    Softener,
    Stabilizer,
)
from pourwright.shop.mold import Bait, ClampRow, Mold, Weighing
from pourwright.shop.noun import Noun
from pourwright.shop.timed_shot import TimedShot
from pourwright.shop.tool import (
    Cup,
    Gear,
    Glass,
    Injector,
    Microwave,
    Scale,
    SpoonSet,
    Thermometer,
    ThermometerKind,
    TimedReading,
    WaterTest,
)
from pourwright.shop.workplace import Workplace
from pourwright.spectrum.shed import LightSort, ShedLight

SHED = ShedLight(sort=LightSort.WHITE_LED, color_temperature_kelvin=4000)


def fill_demo(world: World, *, past: bool = True) -> None:
    """Put the demo bench into an empty store, all of it or nothing.

    Without its `past` it has one lot, and no pour day is laid out.
    """
    with world.bench() as bench:
        for key, noun in demo_nouns().items():
            bench.records.save(noun.key, key, noun, expected_version=0)
        fill_demo_lot(bench, world.ids)
        fill_demo_bags(bench, world.ids)
        fill_demo_orders(bench, world.clock)
        fill_demo_sales(bench, world.clock, world.ids)
        if past:
            fill_demo_past(bench, world.ids)
            fill_demo_day(bench, world.clock)
        bench.commit()


def demo_nouns() -> dict[str, Noun]:
    """Every noun of the demo bench by id."""
    return (
        {
            WORKPLACE: Workplace(
                name="Heron Slough demo bench", ambient_c=22.0, demo=True, shed_light=SHED
            )
        }
        | _tools()
        | _baits()
        | _shelf()
        | _colors()
        | _looks()
        | demo_pucks()
        | demo_prices()
        | {"demo-plan": DEMO_DRAFT}
    )


# What the demo bench opens with: twenty-four worms.
DEMO_DRAFT = Draft(
    name="Two dozen marsh worms",
    mold="demo-mold-worm", count=24, cup="demo-cup-pint", look="demo-look-marsh",
    plastic="demo-plastic-medium", microwave="demo-oven-small",
    thermometer="demo-thermometer-gun", injector="demo-injector-six", spoons="demo-spoons",
    scale="demo-scale", packing="demo-packing",
)  # fmt: skip


def _tools() -> dict[str, Noun]:
    return {
        "demo-oven-small": Microwave(
            name="Small oven from the shed", label_w=650, price_money=50, note=INVENTED,
            water_tests=(
                WaterTest(
                    water_g=500, start_c=20.0, end_c=32.8, on_s=60, vessel_g=400, ambient_c=22
                ),
                WaterTest(
                    water_g=500, start_c=19.5, end_c=32.1, on_s=60, vessel_g=400, ambient_c=22
                ),
            ),
            readings=(TimedReading(plastic_g=498, on_s=360, surface_c=170, start_c=22),),
        ),
        "demo-oven-usual": Microwave(
            name="Usual oven, borrowed", label_w=1050, note=INVENTED,
            water_tests=(
                WaterTest(
                    water_g=500, start_c=20.0, end_c=37.4, on_s=60, vessel_g=400, ambient_c=22
                ),
            ),
        ),
        "demo-cup-pint": Cup(
            name="Big pouring cup", volume_ml=946, mass_g=540, diameter_mm=104,
            glass=Glass.BOROSILICATE, price_money=16, note=INVENTED,
        ),
        "demo-cup-small": Cup(
            name="Small pouring cup", volume_ml=473, mass_g=390, diameter_mm=86,
            glass=Glass.BOROSILICATE, price_money=11, note=INVENTED,
        ),
        "demo-thermometer-gun": Thermometer(
            name="Infrared gun", reads=ThermometerKind.INFRARED, price_money=22, note=INVENTED
        ),
        "demo-injector-six": Injector(
            name="Six-ounce injector", volume_ml=177.4, bore_mm=38, heel_ml=5, price_money=48,
            note=INVENTED,
        ),
        "demo-spoons": SpoonSet(
            name="Steel spoons", sizes_tsp=(1.0, 0.5, 0.25, 0.125), price_money=6, note=INVENTED
        ),
        "demo-scale": Scale(
            name="Tenth-gram scale", resolution_g=0.1, price_money=17, note=INVENTED
        ),
        "demo-gear-gloves": Gear(name="Heat gloves and face shield", price_money=30, note=INVENTED),
    }  # fmt: skip


def _baits() -> dict[str, Noun]:
    return {
        "demo-bait-worm": Bait(
            name="Seven-inch marsh worm",
            shape=Worm(length_mm=178, diameter_mm=12.5, tail_diameter_mm=4.5),
            note=INVENTED,
        ),
        "demo-bait-paddle": Bait(
            name="Four-inch slough shad", shape=PaddleTail(),
            weighing=Weighing(air_g=12.1, gained_g=11.4, water_c=21, resolution_g=0.1),
            note=INVENTED,
        ),
        "demo-mold-worm": Mold(
            name="Marsh worm mold, four cavities", bait="demo-bait-worm", cavities=4, owned=2,
            feed_ml=5, mass_g=1200, price_money=60, life_shots=4000, note=INVENTED,
            feed=MoldFeed(
                sprue_mm=8, sprue_length_mm=38, runner_mm=6, gate_width_mm=6, gate_thick_mm=5
            ),
            clamps=(ClampRow(sort=Bolt(count=4, bolt_mm=5)), ClampRow(sort=Bar(count=2))),
        ),
        "demo-mold-paddle": Mold(
            name="Slough shad mold, two cavities", bait="demo-bait-paddle", cavities=2, owned=1,
            feed_ml=3.5, mass_g=900, price_money=45, life_shots=4000, note=INVENTED,
        ),
        "demo-timed-shot": TimedShot(
            name="1.9 s into Marsh worm mold, four cavities", mold="demo-mold-worm",
            plastic="demo-plastic-medium", injector="demo-injector-six", melt_c=170, mold_c=30,
            fill_s=1.9,
        ),
    }  # fmt: skip


def _shelf() -> dict[str, Noun]:
    return {
        "demo-plastic-medium": Plastic(
            name="Medium plastisol", cold_density_g_ml=1.05, hardness_oo=38, flash_point_c=213,
            data_sheet="Invented sheet, revised 2026-01", package_g=3975,
            package_price_money=46, on_hand_g=3100, lot="M-417", note=INVENTED,
        ),
        "demo-softener": Softener(
            name="Softener", package_g=930, package_price_money=15, on_hand_g=700, note=INVENTED
        ),
        "demo-hardener": Hardener(
            name="Hardener", package_g=1000, package_price_money=17, on_hand_g=900, note=INVENTED
        ),
        "demo-stabilizer": Stabilizer(
            name="Heat stabilizer", package_g=120, package_price_money=9, on_hand_g=95,
            note=INVENTED,
        ),
        "demo-salt": Salt(
            name="Fine dry salt", package_g=2270, package_price_money=6, on_hand_g=1500,
            spoon_g=5.9, note=INVENTED,
        ),
        "demo-hollow-glass": HollowGlass(
            name="Hollow glass beads", package_g=250, package_price_money=14, on_hand_g=200,
            density_g_ml=0.2, note=INVENTED,
        ),
        "demo-scent": Scent(
            name="Crawdad scent", package_g=120, package_price_money=8, on_hand_g=80, note=INVENTED
        ),
        "demo-bag-oil": BagOil(
            name="Bag oil", package_g=240, package_price_money=9, on_hand_g=200, note=INVENTED
        ),
        "demo-lubricant": InjectorLubricant(
            name="Plunger lubricant", package_g=60, package_price_money=7, on_hand_g=55,
            note=INVENTED,
        ),
        "demo-release": MoldRelease(
            name="Mold release", package_g=250, package_price_money=11, on_hand_g=230,
            note=INVENTED,
        ),
        "demo-eyes": Eyes(
            name="Silver eyes", size_mm=4, pieces=200, package_price_money=9, note=INVENTED
        ),
        "demo-packing": Packing(
            name="Bag and card for eight", pieces=100, package_price_money=18, baits_each=8,
            note=INVENTED,
        ),
        "demo-remelt": RemeltPot(
            name="Dark greens, once heated", on_hand_g=420, heats=1, note=INVENTED
        ),
    }  # fmt: skip


def _colors() -> dict[str, Noun]:
    return {
        "demo-color-moss": Colorant(
            name="Moss green", color_hex="#7fa83c", strength=0.7, drop_mass_g=0.036,
            shake_first=True, package_g=30, package_price_money=4.5, on_hand_g=24, note=INVENTED,
        ),
        "demo-color-brown": Colorant(
            name="Bog brown", color_hex="#8a6238", strength=0.8, drop_mass_g=0.038, package_g=30,
            package_price_money=4.5, on_hand_g=27, note=INVENTED,
        ),
        "demo-color-white": Colorant(
            name="Chalk white", color_hex="#f4f3ee", opaque=True, shake_first=True,
            drop_mass_g=0.045, package_g=30, package_price_money=4.5, on_hand_g=12, note=INVENTED,
        ),
        "demo-color-rose": Colorant(
            name="Dawn rose", color_hex="#d4476e", bleeds=True, package_g=30,
            package_price_money=5, on_hand_g=30, note=INVENTED,
        ),
        "demo-flake-copper": Flake(
            name="Copper flake, fine", color_hex="#b0713a", size_mm=0.4, film_um=25, spoon_g=2.8,
            package_g=56, package_price_money=5, on_hand_g=31, note=INVENTED,
        ),
        "demo-pearl-silver": PearlPowder(
            name="Silver pearl", color_hex="#d9dde2", spoon_g=1.9, package_g=28,
            package_price_money=6, on_hand_g=20, note=INVENTED,
        ),
    }  # fmt: skip


def _looks() -> dict[str, Noun]:
    return {
        "demo-look-marsh": Look(
            name="Marsh green, copper flake",
            layers=(
                LookLayer(
                    place=Place.BODY,
                    share=1.0,
                    doses=(
                        Dose(material="demo-color-moss", per_100g=6, measure=Measure.DROPS),
                        Dose(material="demo-color-brown", per_100g=1, measure=Measure.DROPS),
                        Dose(material="demo-flake-copper", per_100g=0.06, measure=Measure.SPOONS),
                        Dose(material="demo-stabilizer", per_100g=1, measure=Measure.GRAMS),
                    ),
                ),
            ),
            note=INVENTED,
        ),
        "demo-look-shad": Look(
            name="Slough shad: brown back, pearl belly",
            layers=(
                LookLayer(
                    place=Place.BACK,
                    share=0.4,
                    doses=(
                        Dose(material="demo-color-brown", per_100g=4, measure=Measure.DROPS),
                        Dose(material="demo-flake-copper", per_100g=0.06, measure=Measure.SPOONS),
                    ),
                ),
                LookLayer(
                    place=Place.BELLY,
                    share=0.6,
                    doses=(
                        Dose(material="demo-color-white", per_100g=5, measure=Measure.DROPS),
                        Dose(material="demo-pearl-silver", per_100g=0.25, measure=Measure.SPOONS),
                        Dose(material="demo-softener", per_100g=6, measure=Measure.GRAMS),
                    ),
                ),
            ),
            note=INVENTED,
        ),
    }
