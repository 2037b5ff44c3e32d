"""Laws that every batch keeps."""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.record import from_json, to_json
from pourwright.base.revive import revived
from pourwright.forecast.request import BatchRequest
from pourwright.plan.batch import plan_batch
from pourwright.plan.batch_plan import BatchPlan

FOUR = dict(plan_batch.example)


few = settings(max_examples=25)


def asked(**changes):
    return from_json(BatchRequest, FOUR | changes)


@few
@given(count=st.integers(1, 400), cavities=st.integers(1, 8), brim=st.sampled_from([240, 473, 946]))
def test_grams_in_are_grams_out(count: int, cavities: int, brim: float) -> None:
    try:
        plan = plan_batch(asked(count=count, mold={"cavities": cavities}, cup={"brim_ml": brim}))
    except NoAnswer:
        return
    figures = {f.key: f.value for f in plan.figures}
    in_cups = sum(c.total_g for c in plan.cups)
    assert in_cups == pytest.approx(figures["plastic_g"].typical, abs=0.001 * len(plan.cups))
    for cup in plan.cups:
        assert cup.virgin_g + cup.remelt_g + cup.additives_g == pytest.approx(cup.total_g, abs=0.01)
        assert cup.fill_share <= 0.7 + 1e-6
    assert sum(c.shots for c in plan.cups) == plan.shots


@few
@given(count=st.integers(1, 200))
def test_bands_hold_their_typical_value(count: int) -> None:
    for it in plan_batch(asked(count=count)).figures:
        assert it.value.low <= it.value.typical <= it.value.high
        assert it.label
        assert it.source


def test_the_same_request_gives_the_same_plan() -> None:
    assert to_json(plan_batch(asked())) == to_json(plan_batch(asked()))


def test_a_kept_plan_comes_back_whole() -> None:
    plan = plan_batch(asked())
    assert revived(BatchPlan, to_json(plan)) == plan


def test_more_baits_never_take_less_plastic() -> None:
    grams = []
    for count in range(1, 60):
        figures = {f.key: f.value for f in plan_batch(asked(count=count)).figures}
        grams.append(figures["plastic_g"].typical)
    assert grams == sorted(grams)


def test_layers_of_a_look_have_cups_of_their_own_and_share_the_shots() -> None:
    layers = [{"name": "back", "share": 0.4}, {"name": "belly", "share": 0.6}]
    plan = plan_batch(asked(layers=layers))
    plain = plan_batch(asked())
    assert {c.layer for c in plan.cups} == {"back", "belly"}
    for name in ("back", "belly"):
        assert sum(c.shots for c in plan.cups if c.layer == name) == plain.shots


def test_every_typical_value_is_named_with_its_cure() -> None:
    plan = plan_batch(asked())
    assert any("label_w was left out" in a and "read the label" in a for a in plan.assumptions)
    known = asked(oven={"label_w": 700})
    assert not any("label_w" in a for a in plan_batch(known).assumptions)


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"count": -3}, "count"),
        ({"count": float("nan")}, "count"),
        ({"bait": {}}, "bait.mass_g"),
        ({"mold": {"cavities": 0}}, "mold.cavities"),
        ({"cup": {"brim_ml": "big"}}, "cup.brim_ml"),
        ({"layers": [{"share": 0.3}]}, "layers"),
        ({"colour": 1}, "colour"),
    ],
)
def test_nonsense_is_refused_by_name(changes: dict[str, object], field: str) -> None:
    with pytest.raises(BadInput, match=field.rsplit(".", maxsplit=1)[-1]) as refusal:
        asked(**changes)
    assert refusal.value.field == field


def test_a_shot_too_big_for_the_injector_says_by_how_much() -> None:
    with pytest.raises(NoAnswer, match="mL over"):
        plan_batch(asked(bait={"mass_g": 200}))


def test_a_poured_count_needs_no_injector() -> None:
    plan = plan_batch(dataclasses.replace(asked(), injector=None))
    assert plan.loads == 0
    assert "injector_window_s" not in {f.key for f in plan.figures}


def test_an_open_mold_is_opened_later() -> None:
    # One cold face instead of two takes a good deal longer (Incropera and DeWitt, sec. 5.5: the
    # insulated face of a wall stands for the middle of one twice as thick).
    def opened(**more: object) -> float:
        plan = plan_batch(asked(mold={"cavities": 4} | more))
        return next(f.value.typical for f in plan.figures if f.key == "open_s")

    assert opened(open_face=True) > 1.8 * opened()
