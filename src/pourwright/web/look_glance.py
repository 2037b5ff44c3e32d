"""A wish as a picture takes it."""

from __future__ import annotations

from pourwright.actions.look_to_fish import SomeWater, own_water
from pourwright.actions.plan_batch import workplace
from pourwright.actions.port import Bench
from pourwright.actions.see_look import Glance
from pourwright.base.errors import BadInput
from pourwright.forecast.picture.light_water import UnderWater
from pourwright.forecast.picture.picture_input import Held, Sight
from pourwright.forecast.picture.sheet import (
    BLACK_CARD_HEX,
    GRAY_BENCH_HEX,
    LIT_BEHIND,
    WHITE_CARD_HEX,
)
from pourwright.spectrum.light import Light
from pourwright.spectrum.shed import ShedLight
from pourwright.water.ask import WaterAsk
from pourwright.water.kind import WaterKind
from pourwright.web.look_wish import Ground, Lamp, LookWish, Waters, Where

_SHEET = {
    Ground.WHITE: WHITE_CARD_HEX, Ground.GRAY: GRAY_BENCH_HEX, Ground.BLACK: BLACK_CARD_HEX,
}  # fmt: skip
LAMPS = {
    Light.D65: Lamp.DAYLIGHT, Light.A: Lamp.FILAMENT, Light.OFFICE: Lamp.OFFICE,
    Light.LED: Lamp.LED,
}  # fmt: skip
"""The lamp that gives a light; the shed's own is told apart."""
_LIGHT = {lamp: light for light, lamp in LAMPS.items()}


def water_asked(bench: Bench, water: Waters) -> SomeWater:
    """The water that was picked."""
    return own_water(bench) if water is Waters.MINE else SomeWater(WaterKind(water.value))


def glance_of(bench: Bench, wish: LookWish, pixels: int) -> Glance:
    """A wish as a picture takes it. Raises: BadInput for a shed light nobody described."""
    if wish.where is Where.WATER:
        asked = water_asked(bench, wish.water)
        water = WaterAsk(kind=asked.kind, secchi_m=asked.secchi_m, depth_m=wish.depth_m)
        under = UnderWater(water=water, range_m=wish.distance_m)
        return Glance(sight=Sight(side=wish.side), water=under, pixels=pixels)
    lit = wish.where is Where.LIGHT
    sight = Sight(
        side=wish.side,
        sheet_hex=_SHEET[Ground.WHITE if lit else wish.ground],
        held=Held.BEFORE if lit else Held.LYING,
        behind=LIT_BEHIND if lit else 1.0,
        light=_LIGHT.get(wish.lamp, Light.D65),
        shed_light=_shed(bench) if wish.lamp is Lamp.SHED else None,
    )
    return Glance(sight=sight, pixels=pixels)


def _shed(bench: Bench) -> ShedLight:
    found = workplace(bench).shed_light
    if found is None:
        raise BadInput("lamp", "shed", "is not described yet: say on Workplace what lamp it is")
    return found
