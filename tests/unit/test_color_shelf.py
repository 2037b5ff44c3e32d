"""The demo shelf in color: learned from its pucks, tried, matched, corrected, drifting."""

from __future__ import annotations

import dataclasses

import pytest

from pourwright import wire
from pourwright.actions.calibrate_shelf import calibrate_shelf
from pourwright.actions.color_look import Trial, moved, try_color
from pourwright.actions.drift import lot_colors
from pourwright.actions.meet_target import correct_cup, match_color
from pourwright.actions.plan_batch import plan_batch
from pourwright.actions.shelf_color import calibrations, color_shelf
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.color.calibrate.entry import CardRead, Read
from pourwright.color.correct.question import Drip
from pourwright.color.lab import Lab
from pourwright.shop.card import Card
from pourwright.shop.draft import Draft
from pourwright.shop.look import Dose, Look
from pourwright.shop.material import Colorant
from pourwright.shop.puck import OverCard, Puck
from ready_store import demo_bench

MARSH = "demo-look-marsh"
GREEN = Lab(lightness=52, a=-24, b=40)


@pytest.fixture(scope="module")
def learned(tmp_path_factory):
    world = demo_bench(tmp_path_factory.mktemp("color"))
    return world, calibrate_shelf(world)


def test_the_demo_pucks_fit_and_forecast_their_check_puck(learned):
    answer = learned[1].answer
    assert answer.doubted == ()
    assert answer.typical_misfit < 1.5
    assert answer.check_misfit is not None
    assert answer.check_misfit < 5


def test_what_was_learned_is_kept_and_used(learned):
    world, _ = learned
    with world.bench() as bench:
        known = calibrations(bench)
        assert {"demo-color-moss", "demo-color-brown", "demo-plastic-medium"} <= set(known)
        shelf = color_shelf(bench)
        moss, rose = (shelf.colorant(f"demo-color-{n}") for n in ("moss", "rose"))
        assert moss is not None
        assert rose is not None
        assert moss.measured
        assert not rose.measured
        draft = bench.records.get(Draft.key, "demo-plan").noun
        plan = plan_batch(bench, draft).plan
        # The flake of this look was never read, so the whole is not calibrated.
        assert not plan.looks[0].calibrated


def test_a_look_of_measured_colors_alone_counts_as_calibrated(learned):
    world, _ = learned
    with world.bench() as bench:
        look = bench.records.get(Look.key, MARSH).noun
        layer = dataclasses.replace(look.layers[0], doses=look.layers[0].doses[:2])
        bench.records.save(
            Look.key, "two", dataclasses.replace(look, layers=(layer,)), expected_version=0
        )
        draft = dataclasses.replace(bench.records.get(Draft.key, "demo-plan").noun, look="two")
        shown = plan_batch(bench, draft).plan.looks[0]
    assert shown.calibrated
    assert shown.notes == ("From your own pucks.",)


def test_learning_twice_keeps_one_belief_each(learned):
    world, _ = learned
    calibrate_shelf(world)
    with world.bench() as bench:
        stored = bench.records.all("calibration")
    assert len({s.noun.material for s in stored}) == len(stored)


def trial(bench, **more):
    look = bench.records.get(Look.key, MARSH).noun
    doses = tuple(d for d in look.layers[0].doses if d.material.startswith("demo-color"))
    return Trial(doses=doses, plastic="demo-plastic-medium", **more)


def test_swatches_stand_at_several_thicknesses_and_grounds(learned):
    with learned[0].bench() as bench:
        shown = try_color(bench, trial(bench, target=GREEN))
        shifts = moved(bench, trial(bench))
    assert [r.thick_mm for r in shown.rows] == [3, 6, 10, 15]
    assert {c.view for c in shown.rows[0].cells} == {
        "over white", "over dark", "in the hand", "in water",
    }  # fmt: skip
    assert len({c.color_hex for r in shown.rows for c in r.cells}) > 10
    assert shown.delta_e00 is not None
    assert shown.delta_e00 > 0
    assert any(m.warns for m in shifts)


def test_a_recipe_is_found_from_the_shelf_and_named_by_its_bottles(learned):
    with learned[0].bench() as bench:
        wanted = trial(bench, target=GREEN)
    answer, names = match_color(learned[0], wanted)
    assert answer.closest[0].delta_e00 < 3
    assert {d.name for r in answer.closest for d in r.doses} <= set(names)


@pytest.mark.parametrize("dark", [False, True])
def test_a_drip_of_the_cup_says_what_to_do(learned, dark):
    with learned[0].bench() as bench:
        white = bench.records.get(Card.key, "demo-card-white").noun.bare
        held = trial(bench)
        # What the cup shows at the bait's thickness is the target, so a drip as expected is there.
        wanted = dataclasses.replace(held, target=try_color(bench, held).lab)
        thin = try_color(bench, dataclasses.replace(held, thick_mm=3.0)).lab
    # The card read 94.7, the swatch lies over a white of 85 %: near enough for a drip as expected.
    read = Lab(lightness=14, a=2, b=4) if dark else thin
    drip = Drip(thick_mm=3, readings=(CardRead(over=white, read=Read(lab=read)),))
    answer = correct_cup(learned[0], wanted, drip)
    if dark:
        assert answer.advice != "pour"
        assert answer.surprise > 20
        assert answer.now.typical > 8
    else:
        assert answer.advice == "pour"
        assert answer.surprise < 3


def test_lots_drift_in_the_order_they_were_read(learned):
    with learned[0].bench() as bench:
        lots = lot_colors(bench, MARSH)
    assert [lot.lot for lot in lots] == ["26H14A", "26I20A", "26J25A"]
    assert lots[0].delta_e00 == 0
    assert lots[2].delta_e00 > lots[1].delta_e00


def test_without_a_target_or_a_colorant_it_says_so(tmp_path):
    world = wire.world(tmp_path / "bench.db")
    with pytest.raises(NoAnswer, match="no target"):
        match_color(world, Trial(doses=()))
    with pytest.raises(NoAnswer, match="no colorant"):
        match_color(world, Trial(doses=(), target=GREEN))
    with world.bench() as bench, pytest.raises(BadInput, match="what lamp it is"):
        try_color(bench, Trial(doses=(), shed=True))
    with pytest.raises(NoAnswer, match="no puck teaches"):
        calibrate_shelf(world)


def test_what_glows_is_fluorescent(tmp_path):
    world = wire.world(tmp_path / "bench.db")
    with world.bench() as bench:
        glow = Colorant(name="Glow", color_hex="#40ff40", glows=True)
        bench.records.save(Colorant.key, "glow", glow, expected_version=0)
        shown = try_color(bench, Trial(doses=(Dose(material="glow", per_100g=4),)))
    assert any("Fluorescent" in n for n in shown.notes)


def test_a_puck_too_narrow_is_refused():
    read = Read(lab=GREEN)
    with pytest.raises(BadInput, match="six thicknesses"):
        Puck(name="x", thick_mm=5, wide_mm=20, readings=(OverCard(card="c", read=read),))
