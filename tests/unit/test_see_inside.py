"""Stories of a look inside a cup: a power that ends where it is asked to, and a sheet's own cup."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest

from pourwright.actions.demo import DEMO_DRAFT
from pourwright.actions.plan_batch import plan_batch
from pourwright.actions.port import World
from pourwright.actions.see_inside import USUAL, inside_plan, inside_sheet, see_inside
from pourwright.base.errors import BadInput, NotFound
from pourwright.heat.course import Burst
from pourwright.heat.field.forecast import cook_section
from pourwright.heat.field.source import Pattern
from ready_store import demo_bench


@pytest.fixture
def demo(tmp_path: Path) -> World:
    return demo_bench(tmp_path)


def test_a_given_power_is_used_as_it_is():
    seen = see_inside(dataclasses.replace(USUAL, power_w=400))
    plain = {"power_w": 400, "cup_diameter_mm": 88.9, "bursts": [
        {"on_s": 180}, {"on_s": 120}, {"on_s": 90}]}  # fmt: skip
    assert not seen.found
    assert seen.power_w == 400
    assert seen.answer.peak_c == cook_section.answer(plain)["peak_c"]


@pytest.mark.parametrize("ends_c", [110.0, 172.0])
@pytest.mark.parametrize("pattern", list(Pattern))
def test_a_power_is_found_that_ends_at_the_reading(ends_c: float, pattern: Pattern):
    seen = see_inside(dataclasses.replace(USUAL, pattern=pattern, ends_c=ends_c, power_w=1900))
    assert seen.found
    assert seen.answer.moments[-1].mean_c == pytest.approx(ends_c, abs=0.35)
    # No oven beats the first law: what the plastic alone takes up, at no less than 1.7 J/(g K)
    # (heat capacity of plasticized PVC at room temperature, from memory), must have come in.
    assert seen.power_w * 390 > 498 * 1.7 * (ends_c - 22)


@pytest.mark.parametrize(("on_s", "watts"), [(5.0, "38"), (1200.0, "15")])
def test_an_end_no_oven_reaches_is_refused_with_the_power_it_would_take(on_s: float, watts: str):
    entry = dataclasses.replace(USUAL, ends_c=170 if on_s < 60 else 36, bursts=(Burst(on_s=on_s),))
    with pytest.raises(BadInput, match=f"ends_c: would need about {watts}") as caught:
        see_inside(entry)
    assert caught.value.field == "ends_c"


def test_an_end_below_the_start_is_refused():
    with pytest.raises(BadInput, match="warmer than the plastic at the start"):
        dataclasses.replace(USUAL, start_c=40, ends_c=39)


def test_an_end_no_bursts_reach_in_an_hour_is_refused_as_a_section_does():
    with pytest.raises(BadInput, match=r"bursts: may last one hour"):
        dataclasses.replace(USUAL, bursts=(Burst(on_s=1200, rest_s=2500),))


def test_a_sheets_cup_has_its_glass_its_rounds_and_its_end(demo: World):
    with demo.bench() as bench:
        sheet = bench.sheets.get(1)
    entry = inside_sheet(sheet, 2)
    heat = next(h for h in sheet.plan["heat"] if 2 in h["cups"])
    assert (entry.plastic_g, entry.cup_g) == (round(heat["mass_g"], 1), 390)
    assert [b.on_s for b in entry.bursts] == [r["on_s"] for r in heat["rounds"]]
    last = see_inside(entry).answer.moments[-1]
    assert last.mean_c == pytest.approx(heat["target_c"], abs=0.4)
    # Another model's power is never handed over.
    assert entry.power_w == USUAL.power_w
    with pytest.raises(NotFound, match="has no cup 9"):
        inside_sheet(sheet, 9)


def test_a_plan_nobody_froze_gives_the_same(demo: World):
    with demo.bench() as bench:
        planned = plan_batch(bench, DEMO_DRAFT)
    entry = inside_plan(planned, 1)
    assert entry.cup_diameter_mm == pytest.approx(104)
    assert entry.ends_c == round(planned.plan.heat[0].target_c, 1)
