"""The one list of calculations; command line, HTTP and OpenAPI read it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from pourwright.base.calc import Calculation
from pourwright.base.errors import NotFound
from pourwright.blend.density import density
from pourwright.blend.hang import hang
from pourwright.blend.hardness import hardness
from pourwright.blend.press_test import press_test
from pourwright.blend.sink import sink
from pourwright.body.filling_order import filling
from pourwright.body.measure import measure
from pourwright.body.mold.make import mold_make
from pourwright.body.split_shares import split_shares
from pourwright.body.thickness_map import thickness_map
from pourwright.body.weigh import weigh
from pourwright.color.calibrate.answer import calibrate
from pourwright.color.correct.answer import correct
from pourwright.color.cover import flake_cover
from pourwright.color.difference import difference
from pourwright.color.match.answer import match
from pourwright.color.pearl.answer import pearl_film
from pourwright.color.pearl.calibrate import pearl_calibrate
from pourwright.color.photo.read import photo
from pourwright.color.predict import predict
from pourwright.color.reach.survey import color_reach
from pourwright.color.recipe import recipe_scale
from pourwright.fill.air import air
from pourwright.fill.bubbles import bubbles
from pourwright.fill.clamp import clamp
from pourwright.fill.hold import fill_hold
from pourwright.fill.join import fill_join
from pourwright.fill.odds import fill_odds
from pourwright.fill.settle import settle
from pourwright.fill.shot import shot_plan
from pourwright.fill.timed_shot import fill_timed_shot
from pourwright.forecast.cavity_count import mold_cavities
from pourwright.forecast.picture.picture import look_picture
from pourwright.forecast.pour_rotation import pour_rotation
from pourwright.forecast.shot_on_load import fill_load
from pourwright.heat.bait_cooling import cool_bait
from pourwright.heat.coupling import coupling
from pourwright.heat.field.forecast import cook_section
from pourwright.heat.forecast import cook_forecast
from pourwright.heat.mold_warming import cool_mold
from pourwright.heat.next_burst import next_burst
from pourwright.heat.scorch_budget import cook_scorch
from pourwright.heat.thermometer_check import thermometer_check
from pourwright.heat.water_test import water_test
from pourwright.heat.window import cool_window
from pourwright.plan.batch import plan_batch
from pourwright.plan.cups.cups import plan_cups
from pourwright.plan.day.day import plan_day
from pourwright.plan.day.split_days import split_days
from pourwright.plan.kit.growth import growth
from pourwright.plan.kit.starter_kit import starter_kit
from pourwright.shop.chart.count import count_chart
from pourwright.shop.chart.mass import mass_chart
from pourwright.shop.chart.share import share_chart
from pourwright.shop.check_code import check_code
from pourwright.shop.cost import batch_cost
from pourwright.shop.message.read import read_message
from pourwright.shop.payback import payback
from pourwright.shop.price import price
from pourwright.shop.price_breaks import price_breaks
from pourwright.shop.stock_value import stock_value
from pourwright.shop.tax.excise import excise
from pourwright.shop.trace import trace
from pourwright.water.fish.contrast import fish_contrast
from pourwright.water.light import water_light
from pourwright.water.seen import water_sight

CALCULATIONS: tuple[Calculation[Any, Any], ...] = (
    plan_batch,
    shot_plan,
    plan_cups,
    recipe_scale,
    water_test,
    coupling,
    thermometer_check,
    cook_forecast,
    next_burst,
    cook_section,
    cook_scorch,
    cool_window,
    cool_bait,
    cool_mold,
    pour_rotation,
    predict,
    calibrate,
    match,
    correct,
    color_reach,
    photo,
    difference,
    flake_cover,
    pearl_film,
    pearl_calibrate,
    measure,
    thickness_map,
    look_picture,
    split_shares,
    filling,
    weigh,
    mold_make,
    mold_cavities,
    fill_odds,
    fill_timed_shot,
    fill_load,
    fill_hold,
    fill_join,
    clamp,
    air,
    bubbles,
    settle,
    hardness,
    press_test,
    density,
    sink,
    hang,
    water_light,
    water_sight,
    fish_contrast,
    batch_cost,
    plan_day,
    split_days,
    price,
    price_breaks,
    payback,
    starter_kit,
    growth,
    check_code,
    stock_value,
    trace,
    excise,
    read_message,
    share_chart,
    count_chart,
    mass_chart,
)


def by_name(
    calculations: tuple[Calculation[Any, Any], ...],
) -> Mapping[str, Calculation[Any, Any]]:
    """The calculations by name. Raises: ValueError if two share a name."""
    named = {c.name: c for c in calculations}
    if len(named) != len(calculations):
        names = [c.name for c in calculations]
        twice = sorted({n for n in names if names.count(n) > 1})
        raise ValueError(f"two calculations are called {', '.join(twice)}")
    return MappingProxyType(named)


CATALOG = by_name(CALCULATIONS)


def named(name: str) -> Calculation[Any, Any]:
    """The calculation of that name. Raises: NotFound listing the names there are."""
    if name not in CATALOG:
        raise NotFound(f"no calculation is called {name!r}; there are {', '.join(CATALOG)}")
    return CATALOG[name]
