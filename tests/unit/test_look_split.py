"""Stories of a look's layers: shares from a bait's shape, barrels, and an echo of the vein."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest

from pourwright.actions.echo_vein import echo_look_vein
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.keep_record import add_record
from pourwright.actions.plan_batch import Planned, plan_batch
from pourwright.actions.port import World
from pourwright.base.errors import BadInput, Conflict
from pourwright.base.record import from_json, to_json
from pourwright.body.division import Place
from pourwright.body.split import Line, Split
from pourwright.matter import plastisol
from pourwright.plan.echo import echo_vein
from pourwright.plan.layer_share import layer_shares
from pourwright.shop.draft import Draft
from pourwright.shop.look import Dose, Look, LookLayer, Measure
from pourwright.shop.mold import Bait, Mold

PEARL, FLAKE, WHITE = "demo-pearl-silver", "demo-flake-copper", "demo-color-white"


def look(split: Split | None = None, **shares: float) -> Look:
    layers = tuple(LookLayer(place=Place(p), share=s) for p, s in shares.items())
    return Look(name="Trial", layers=layers, split=split or Split())


def veined(*belly: Dose, vein: float = 0.5) -> Look:
    """A look with a pearly vein that holds `vein` spoons, some flake and a color."""
    recipe = (
        Dose(material=WHITE, per_100g=2, measure=Measure.DROPS),
        Dose(material=PEARL, per_100g=vein, measure=Measure.SPOONS),
        Dose(material=FLAKE, per_100g=0.1, measure=Measure.SPOONS),
    )
    return Look(
        name="Veined",
        layers=(
            LookLayer(place=Place.BELLY, share=0.5, doses=belly),
            LookLayer(place=Place.VEIN, share=0.1, doses=recipe),
            LookLayer(place=Place.BACK, share=0.4),
        ),
    )


def plan(world: World, kept: Look, **more: Any) -> Planned:
    key = add_record(world, kept).id
    draft = Draft(mold="demo-mold-worm", count=24, cup="demo-cup-pint", look=key, **more)
    with world.bench() as bench:
        return plan_batch(bench, draft)


def test_a_look_kept_before_lines_reads_as_it_was():
    old = {
        "name": "Old",
        "layers": [{"place": "back", "share": 0.4}, {"place": "belly", "share": 0.6}],
    }
    found = from_json(Look, old)
    assert found.split == Split()
    assert layer_shares(found, None).shares == (0.4, 0.6)
    assert layer_shares(found, None).told_by == ""
    assert from_json(Look, {k: v for k, v in to_json(found).items() if k != "kind"}) == found


@pytest.mark.parametrize(
    ("split", "shares", "words"),
    [
        (Split(line_height=0.5), {"body": 1.0}, r"split\.line_height: a line needs two"),
        (Split(belly_height=0.5), {"belly": 0.5, "back": 0.5}, r"split\.belly_height: a second"),
        (Split(), {"core": 1.0}, r"layers: a core needs"),
        (Split(vein_height=0.5), {"body": 1.0}, r"split\.vein_height: there is no vein"),
        (Split(vein_thick_mm=1), {"body": 1.0}, r"split\.vein_thick_mm: there is no vein"),
        (Split(vein_wide_mm=1), {"vein": 1.0}, r"split\.vein_wide_mm: there is no vein"),
        (Split(core_share=0.4), {"body": 0.9, "vein": 0.1}, r"split\.core_share: there is no core"),
    ],
)
def test_a_look_refuses_lines_its_layers_do_not_have(split, shares, words):
    with pytest.raises(BadInput, match=words):
        look(split, **shares)


@pytest.mark.parametrize(
    ("line", "shares"),
    [
        (Line.WAVY, {"body": 1.0}),
        (Line.POURED, {"body": 0.6, "back": 0.4}),
        (Line.STRAIGHT, {"belly": 0.3, "body": 0.3, "back": 0.3, "core": 0.1}),
    ],
)
def test_a_line_runs_as_it_likes_in_any_layers(line, shares):
    assert look(Split(line=line), **shares).split.line is line


def test_a_straight_line_does_not_swing():
    with pytest.raises(BadInput, match="wave_mm: a straight line does not swing"):
        Split(wave_mm=1)


def test_shares_follow_from_the_line_in_the_shape_of_the_bait(world):
    told = plan(world, look(Split(line_height=0.5), belly=0.3, back=0.7))
    # The worm of the demo is as high over its middle as under it.
    assert [part.share for part in told.request.layers] == pytest.approx([0.5, 0.5], abs=2e-3)
    (note,) = (it for it in told.plan.warnings if it.text.startswith("Layers:"))
    assert note.level == "note"
    assert "belly 50.0%, back 50.0% of the bait, from the height of the line" in note.text
    entered = plan(world, look(belly=0.3, back=0.7))
    assert [part.share for part in entered.request.layers] == [0.3, 0.7]
    assert not any(it.text.startswith("Layers:") for it in entered.plan.warnings)


def test_a_bait_without_a_shape_keeps_the_shares_entered_and_says_so(world):
    bare = add_record(world, Bait(name="By weight", mass_g=9)).id
    mold = add_record(world, Mold(name="Bare", bait=bare, cavities=2)).id
    key = add_record(world, look(Split(line_height=0.5), belly=0.3, back=0.7)).id
    draft = Draft(mold=mold, count=10, cup="demo-cup-pint", look=key)
    with world.bench() as bench:
        told = plan_batch(bench, draft)
    assert [part.share for part in told.request.layers] == [0.3, 0.7]
    assert any("as entered, since this bait has no shape" in it.text for it in told.plan.warnings)


def test_a_frozen_sheet_keeps_the_shares_it_was_planned_with(world):
    kept = add_record(world, look(Split(line_height=0.6), belly=0.5, back=0.5))
    draft = Draft(mold="demo-mold-worm", count=24, cup="demo-cup-pint", look=kept.id)
    sheet = freeze_sheet(world, draft)
    shares = [layer["share"] for layer in sheet.request["layers"]]
    assert shares[0] > 0.6
    assert "from the height of the line in the shape of" in sheet.request["layers"][0]["told_by"]
    # A sheet frozen before lines were known holds no such word and still reads.
    for layer in sheet.request["layers"]:
        del layer["told_by"]
    again = from_json(type(plan(world, look(body=1.0)).request), sheet.request)
    assert [layer.share for layer in again.layers] == shares


@pytest.mark.parametrize(
    ("split", "shares", "words"),
    [
        (Split(line_height=0.02), {"belly": 0.5, "back": 0.5}, r"leaves the belly 0\.\d%"),
        (Split(vein_wide_mm=0.2, line_height=0.5), {"belly": 0.4, "vein": 0.3, "back": 0.3},
         r"does not fit .*vein of this bait takes at most"),
    ],
)  # fmt: skip
def test_layers_that_find_no_room_in_the_bait_are_refused(world, split, shares, words):
    with pytest.raises(BadInput, match=words):
        plan(world, look(split, **shares))


def test_each_barrel_draws_its_layer(world):
    told = plan(world, look(belly=0.3, back=0.7), injector="demo-injector-six")
    drawn = {f.key: f for f in told.plan.figures if f.key.endswith("_shot_ml")}
    assert set(drawn) == {"belly_shot_ml", "back_shot_ml"}
    both = drawn["belly_shot_ml"].value.typical, drawn["back_shot_ml"].value.typical
    # Mass balance: what the cups give a shot, at the density of hot plastic.
    hot = plastisol.HOT_DENSITY_G_ML.typical
    for place, ml in zip(("belly", "back"), both, strict=True):
        cup = next(c for c in told.plan.cups if c.layer == place)
        assert ml == pytest.approx((cup.shot_g or 0.0) / hot, rel=0.02)
    assert both[1] / both[0] == pytest.approx(7 / 3, rel=0.02)
    by_hand = plan(world, look(belly=0.3, back=0.7), by_hand=True)
    single = plan(world, look(body=1.0))
    for other in (by_hand, single):
        assert not any(f.key.endswith("_shot_ml") for f in other.plan.figures)


def test_an_echo_holds_a_tenth_of_the_veins_pearl_and_nothing_else(world):
    kept = add_record(world, veined(Dose(material=WHITE, per_100g=1, measure=Measure.DROPS)))
    echoed = echo_look_vein(world, kept.id, expected_version=kept.version)
    assert isinstance(echoed.noun, Look)
    belly, vein, back = echoed.noun.layers
    assert [(d.material, d.per_100g, d.measure) for d in belly.doses] == [
        (WHITE, 1, Measure.DROPS),
        (PEARL, pytest.approx(0.05), Measure.SPOONS),
    ]
    assert (vein, back) == kept.noun.layers[1:]  # type: ignore[attr-defined]
    assert echoed.version == kept.version + 1
    with pytest.raises(Conflict):
        echo_look_vein(world, kept.id, expected_version=kept.version)


def test_a_second_echo_takes_the_place_of_the_first(world):
    kept = add_record(world, veined())
    first = echo_look_vein(world, kept.id, expected_version=1)
    second = echo_look_vein(world, kept.id, expected_version=first.version, dose_share=0.2)
    assert isinstance(second.noun, Look)
    assert [d.per_100g for d in second.noun.layers[0].doses] == [pytest.approx(0.1)]


@pytest.mark.parametrize(
    ("layers", "words"),
    [
        ((LookLayer(place=Place.BODY),), "layers: has no vein"),
        (
            (LookLayer(place=Place.BACK, share=0.9), LookLayer(place=Place.VEIN, share=0.1)),
            "layers: has no belly",
        ),
        (
            (LookLayer(place=Place.BELLY, share=0.9), LookLayer(place=Place.VEIN, share=0.1)),
            "layers: has no pearl powder",
        ),
    ],
)
def test_what_has_nothing_to_echo_is_refused(world, layers, words):
    kept = add_record(world, dataclasses.replace(veined(), layers=layers))
    with pytest.raises(BadInput, match=words):
        echo_look_vein(world, kept.id, expected_version=1)


@pytest.mark.parametrize(
    "own",
    [
        Dose(material=PEARL, per_100g=0.5, measure=Measure.SPOONS),
        Dose(material=PEARL, per_100g=0.1, measure=Measure.GRAMS),
    ],
)
def test_pearl_that_the_belly_has_of_its_own_is_left_alone(world, own):
    kept = add_record(world, veined(own))
    with pytest.raises(BadInput, match="in the belly already"):
        echo_look_vein(world, kept.id, expected_version=1)


def test_an_echo_as_strong_as_the_vein_is_none():
    with pytest.raises(BadInput, match="dose_share: must lie between"):
        echo_vein(veined(), {}, dose_share=0.95)
