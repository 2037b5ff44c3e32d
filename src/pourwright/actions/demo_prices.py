"""An invented price list and wish list for the demo bench."""

from __future__ import annotations

from pourwright.actions.invented import INVENTED
from pourwright.shop.noun import Noun
from pourwright.shop.offer import Offer, PriceStep
from pourwright.shop.wish import Wish, WishNeed


def demo_prices() -> dict[str, Noun]:
    """The price list and the wish list by id."""
    return _offers() | _first() | _next()


def _offers() -> dict[str, Noun]:
    return {
        "demo-offer-worm": Offer(
            name="Marsh worms, bag of eight", bait="demo-bait-worm", look="demo-look-marsh",
            baits_each=8, packing="demo-packing", price_money=10.5, note=INVENTED,
            steps=(
                PriceStep(from_packs=5, price_money=9.5),
                PriceStep(from_packs=25, price_money=7.75),
            ),
        ),
        "demo-offer-shad": Offer(
            name="Slough shads, bag of five", bait="demo-bait-paddle", look="demo-look-shad",
            baits_each=5, packing="demo-packing", price_money=11, note=INVENTED,
            steps=(PriceStep(from_packs=10, price_money=9.75),),
        ),
    }  # fmt: skip


def _first() -> dict[str, Noun]:
    """What somebody starting with nothing could buy."""
    return {
        "demo-wish-quart": Wish(
            name="Plastisol, a quart", price_money=19.5, worth=40, must=True, most=2, note=INVENTED
        ),
        "demo-wish-cup": Wish(
            name="Glass pouring cup", price_money=9, worth=20, must=True, note=INVENTED
        ),
        "demo-wish-gloves": Wish(
            name="Heat gloves, face shield, extinguisher", price_money=48, worth=60, must=True,
            note=INVENTED,
        ),
        "demo-wish-gun": Wish(
            name="Infrared thermometer", price_money=22, worth=45, must=True, note=INVENTED
        ),
        "demo-wish-used-oven": Wish(
            name="Used microwave", price_money=30, worth=45, must=True, group="microwave",
            note=INVENTED,
        ),
        "demo-wish-new-oven": Wish(
            name="New microwave", price_money=85, worth=60, group="microwave", note=INVENTED
        ),
        "demo-wish-open-mold": Wish(
            name="Open pour mold, four worms", price_money=24, worth=35, must=True,
            group="first mold", note=INVENTED,
        ),
        "demo-wish-closed-mold": Wish(
            name="Closed mold, two shads", price_money=52, worth=70, group="first mold",
            needs=(WishNeed(wish="demo-wish-injector"),), note=INVENTED,
        ),
        "demo-wish-injector": Wish(
            name="Four-ounce injector", price_money=36, worth=15, note=INVENTED
        ),
        "demo-wish-colors": Wish(
            name="Colorant, a bottle", price_money=4.5, worth=9, most=4, note=INVENTED
        ),
        "demo-wish-flake": Wish(
            name="Flake, a jar", price_money=5, worth=7, most=2, note=INVENTED
        ),
    }  # fmt: skip


def _next() -> dict[str, Noun]:
    """What a running shop could buy next."""
    return {
        "demo-wish-second-mold": Wish(
            name="Second slough shad mold", price_money=45, worth=25, mold="demo-mold-paddle",
            needs=(WishNeed(wish="demo-wish-injector"),), note=INVENTED,
        ),
        "demo-wish-big-cup": Wish(
            name="Quart pouring cup", price_money=16, worth=12, cup_ml=1100, note=INVENTED
        ),
        "demo-wish-second-oven": Wish(
            name="Second microwave", price_money=55, worth=20, note=INVENTED
        ),
    }  # fmt: skip
