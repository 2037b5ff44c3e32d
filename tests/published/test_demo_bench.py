"""The demo bench shows what the trade knows. Every fact here: common practice, no source."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from pourwright.actions.demo import DEMO_DRAFT, demo_nouns
from pourwright.base.draws import Draws
from pourwright.forecast.heat import cup_of, oven_belief
from pourwright.heat import cup as cups
from pourwright.heat.cup import BOTTOM, CORE, MEAN
from pourwright.heat.oven import believed_oven
from pourwright.plan.batch import plan_batch
from pourwright.plan.resolve import Picked, request_of
from pourwright.shop.draft import Draft
from pourwright.shop.tool import Tool
from pourwright.shop.workplace import Workplace

NOUNS = demo_nouns()
WORKPLACE = NOUNS["workplace"]
TWO_CUPS_G = 473 * 1.052


def request(draft: Draft = DEMO_DRAFT):
    assert isinstance(WORKPLACE, Workplace)
    return request_of(draft, Picked(WORKPLACE, NOUNS))


def course(oven: str = "demo-oven-small"):
    asked = request(dataclasses.replace(DEMO_DRAFT, microwave=oven, cup="demo-cup-small"))
    draws = Draws(count=160)
    cup = cup_of(draws, asked.cup, plastic_g=TWO_CUPS_G, cold_g_ml=draws.known(1.052))
    belief = oven_belief(asked.oven)
    room = draws.known(22.0)
    oven_ = believed_oven(draws, belief, plastic_kg=cup.plastic_kg, ambient_c=room)
    return draws, cup, oven_, cups.cold_start(room)


def test_two_cups_in_a_small_oven_are_only_a_jelly_after_four_minutes() -> None:
    _, cup, oven, start = course()
    state = cups.advance(start, cup, oven, 240, on=True)
    assert state.gelled[MEAN, 0] > 0.9
    assert state.fused[MEAN, 0] < 0.1


def test_after_six_minutes_the_surface_reads_about_338_f_and_the_bottom_is_underdone() -> None:
    draws, cup, oven, start = course()
    state = cups.advance(start, cup, oven, 360, on=True)
    read = draws.band(cups.reading(state, oven))
    assert read.typical == pytest.approx(170.0, abs=4.0)  # 338 °F
    assert 2.0 < read.half_width <= 12.0
    assert state.fused[BOTTOM, 0] < 0.5
    assert state.fused[CORE, 0] > 0.9


@pytest.mark.parametrize("on_s", [30, 45])
def test_a_stir_and_half_a_minute_more_make_it_ready(on_s: float) -> None:
    _, cup, oven, start = course()
    state = cups.advance(start, cup, oven, 360, on=True)
    state = cups.stirred(cups.advance(state, cup, oven, 20, on=False))
    state = cups.stirred(cups.advance(state, cup, oven, on_s, on=True))
    assert state.mean_c[0] >= 171
    assert state.fused[:, 0].min() > 0.93


def test_a_usual_oven_needs_four_and_a_half_to_five_minutes() -> None:
    _, cup, oven, start = course("demo-oven-usual")
    at = {s: float(cups.advance(start, cup, oven, s, on=True).mean_c[0]) for s in (240, 270, 300)}
    assert at[240] < 172
    assert at[300] > 165
    assert any(165 <= at[s] <= 185 for s in (270, 300))


def test_a_six_ounce_injector_fills_two_molds_of_seven_inch_worms() -> None:
    plan = plan_batch(request())
    waves = sum(c.waves for c in plan.cups)
    assert request().mold.owned == 2
    assert plan.loads == waves  # one load a wave: both molds
    bigger = dataclasses.replace(request().mold, owned=3)
    three = plan_batch(dataclasses.replace(request(), mold=bigger))
    assert three.loads > sum(c.waves for c in three.cups)


def test_a_bare_bench_costs_about_two_hundred() -> None:
    spent = sum(n.price_money or 0 for n in NOUNS.values() if isinstance(n, Tool))
    assert spent == pytest.approx(200, rel=0.1)


def test_every_name_is_marked_as_invented() -> None:
    notes = [getattr(n, "note", "invented") for n in NOUNS.values() if n.key != "draft"]
    assert all("nvented" in note for note in notes)


def test_bands_stay_useful() -> None:
    figures = {f.key: f.value for f in plan_batch(request()).figures}
    for key, widest in (("plastic_g", 0.2), ("cost_each_money", 0.8), ("minutes", 0.9)):
        band = figures[key]
        assert (band.high - band.low) / band.typical < widest, key
    assert np.isfinite([f.typical for f in figures.values()]).all()
