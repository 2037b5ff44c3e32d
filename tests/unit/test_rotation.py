"""One pair of hands, one cup, some molds: by their stories and by sums on paper."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.record import from_json, to_json
from pourwright.base.revive import revived
from pourwright.forecast.heat import Kitchen
from pourwright.forecast.hot_cup import HotCup, time_constant_s
from pourwright.forecast.pour_rotation import pour_rotation
from pourwright.forecast.pouring import PourQuestion, pouring
from pourwright.forecast.request import BatchRequest
from pourwright.forecast.rotation import Doing, Hands, Pour
from pourwright.forecast.turns import in_a_row, rotated
from pourwright.heat.bait_cooling import cool_bait
from pourwright.heat.bait_in_mold import Mold, Shot, bait_in_mold
from pourwright.plan.batch import plan_batch
from pourwright.plan.batch_plan import BatchPlan
from pourwright.web.plan_view import plan_view
from pourwright.web.pour_chart import LEFT, WIDTH

CUP = {
    "plastic_g": 300, "residue_g": 15, "shot_g": 25, "thickest_mm": 10, "mold_g": 900,
    "mold_c": 25, "ambient_c": 22, "firm_c": 60, "cup_window_s": 245, "injector_window_s": 60,
    "power_w": 500, "draw_s": 10, "shoot_s": 20, "unload_s": 75, "handling_s": 20, "extra_s": 0,
}  # fmt: skip


def answered(**changed):
    return pour_rotation.answer(CUP | changed)


def of(answer, doing):
    return [a for a in answer["acts"] if a["doing"] == doing]


def test_one_shot_on_paper():
    # Draw 10 s, shoot 20 s, wait until firm, open 75 s.
    answer = answered(plastic_g=41)
    assert [a["doing"] for a in answer["acts"]] == ["draw", "shoot", "wait", "open"]
    wait = of(answer, "wait")[0]
    assert answer["minutes"]["typical"] * 60 == pytest.approx(
        10 + 20 + (wait["end_s"] - wait["start_s"]) + 75
    )
    assert answer["rewarms"] == 0
    assert answer["idle_s"]["typical"] == pytest.approx(wait["end_s"] - wait["start_s"])


def test_more_molds_take_less_time_until_hands_are_busy():
    answer = answered(molds=1, thickest_mm=14)
    minutes = [c["minutes"] for c in answer["counts"]]
    assert minutes[0] > minutes[1] > minutes[2]
    assert answer["busy_molds"] == answer["counts"][-1]["molds"]
    share = [c["idle_s"] / 60 / c["minutes"] for c in answer["counts"]]
    assert share[-1] < 0.15 < share[-2]
    # More molds stay cooler.
    warmest = [c["warmest_c"] for c in answer["counts"]]
    assert warmest == sorted(warmest, reverse=True)


def test_a_load_is_shot_in_a_row():
    answer = answered(molds=3, shots_a_load=3)
    assert [a["doing"] for a in answer["acts"]][:4] == ["draw", "shoot", "shoot", "shoot"]
    assert [a["mold"] for a in answer["acts"]][1:4] == [1, 2, 3]
    single = answered(molds=3, shots_a_load=1)
    assert len(of(single, "draw")) == 11 > len(of(answer, "draw"))


def test_a_load_that_stiffens_is_shot_into_fewer_molds():
    # The second shot starts after 20 s, the third after 40 s.
    answer = answered(molds=3, shots_a_load=3, injector_window_s=25)
    assert answer["in_a_row"] == 2
    assert any("stays shootable for 2" in n for n in answer["notes"])
    window, shoot = np.array([25.0]), np.array([20.0])
    assert in_a_row(5, window_s=window, shoot_s=shoot) == 2
    assert in_a_row(1, window_s=window, shoot_s=shoot) == 1


def test_cup_is_warmed_while_molds_cool():
    answer = answered(molds=1)
    warmings = of(answer, "rewarm")
    assert answer["rewarms"] == len(warmings) > 2
    # Never in the way: a mold that is opened after a warming was not firm much before it.
    assert all(a["cup_c"] >= 155 for a in of(answer, "draw"))
    idle = answered(molds=1, cup_window_s=1800)
    assert idle["rewarms"] < answer["rewarms"]
    assert any("stay with the oven" in n for n in answer["notes"])


def test_a_large_cup_never_warms_to_no_end():
    answer = answered(molds=2, cup_window_s=1800, plastic_g=120)
    assert answer["rewarms"] == 0
    assert not any("stay with the oven" in n for n in answer["notes"])


def test_an_oven_too_weak_for_its_cup_is_said():
    answer = answered(molds=1, power_w=90, cup_window_s=60)
    assert min(a["cup_c"] for a in of(answer, "draw")) < 155
    assert any("hardly warms this cup" in n for n in answer["notes"])
    assert not any("hardly warms" in n for n in answered(molds=1)["notes"])


def test_cup_cools_as_its_window_says():
    # By the definition of the window: 245 s from 175 to 155 °C while full.
    slow = time_constant_s(np.array([245.0]), from_c=175, to_c=155, ambient_c=np.array([22.0]))
    full = np.array([498.0])
    cup = HotCup(full, 175, 155, np.array([22.0]), slow, np.array([480.0]))
    after = cup.holding(full).cooled_c(np.array([175.0]), np.array([245.0]))
    assert after[0] == pytest.approx(155)
    # With a quarter left it cools faster, and takes less time to warm.
    low = cup.holding(full / 4)
    assert low.cooled_c(np.array([175.0]), np.array([245.0]))[0] < 154
    assert low.rewarm_s(after)[0] < cup.holding(full).rewarm_s(after)[0]
    # A small load takes up less: 480 W x 124.5/224.5 x 598/498.
    assert low.power_w[0] == pytest.approx(319.6, abs=0.1)


def test_warming_half_a_kilo_takes_under_a_minute():
    # On paper: 0.498 kg and the glass, 1.3 x 0.498 x 2.06 kJ/K x 20 K = 26.7 kJ at 480 W less
    # about 100 W of losses: 70 s.
    slow = np.array([1750.0])
    cup = HotCup(np.array([498.0]), 175, 155, np.array([22.0]), slow, np.array([480.0]))
    assert cup.holding(np.array([498.0])).rewarm_s(np.array([155.0]))[0] == pytest.approx(70, abs=4)


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"shot_g": 290}, "plastic_g"),
        ({"least_c": 178}, "least_c"),
        ({"plastic_g": 3000, "shot_g": 2}, "shot_g"),
        ({"molds": 0}, "molds"),
        ({"power_w": 0}, "power_w"),
    ],
)
def test_nonsense_is_refused_by_name(given, field):
    with pytest.raises(BadInput) as refusal:
        answered(**given)
    assert refusal.value.field == field


def test_mold_too_warm_for_any_bait():
    with pytest.raises(NoAnswer, match="cool the mold first"):
        answered(mold_c=65)


def question(**changed):
    request = from_json(BatchRequest, dict(plan_batch.example) | {"ambient_c": 22})
    kitchen = Kitchen(request.oven, request.cup, request.plastic, 22.0, 1, 20)
    asked = PourQuestion(
        kitchen=kitchen, bait=request.bait, mold=request.mold, injector=request.injector,
        hands=request.hands, cup_g=320.0, shots=12, shot_g=25.0, mold_shot_g=25.0,
        shots_a_load=2, later=False,
    )  # fmt: skip
    return replace(asked, **changed)


def planned(**changed):
    return plan_batch(from_json(BatchRequest, dict(plan_batch.example) | changed))


def test_plan_follows_its_first_cup():
    plan = planned()
    pour = plan.pour
    assert pour is not None
    assert pour.shots == plan.cups[0].shots
    assert sum(a.doing == "shoot" for a in pour.acts) == pour.shots
    figures = {f.key: f.value for f in plan.figures}
    rest = figures["minutes"].typical - pour.minutes.typical
    # Weighing, heating and trimming on top: four minutes, the rounds and eight seconds a bait.
    baits = (plan.shots - 1) * 2
    assert rest == pytest.approx(4 + plan.heat[0].minutes.typical + baits * 8 / 60, abs=0.05)
    assert figures["open_last_s"].typical > figures["open_s"].typical


def test_second_cup_finds_warm_molds():
    one_cup, two_cups = planned(), planned(count=50)
    assert (len(one_cup.cups), len(two_cups.cups)) == (1, 2)
    last = [
        next(f.value.typical for f in plan.figures if f.key == "open_last_s")
        for plan in (one_cup, two_cups)
    ]
    assert last[1] > last[0]
    # While the second cup is weighed and cooked the molds lose a third of their excess or more.
    done = pouring(question(later=True))
    hot = done.first.acts[-1].mold_c[0] - 22
    start = next(a for a in done.later.acts if a.doing is Doing.SHOOT).mold_c[0] - 22
    assert 0.2 * hot < start < 0.67 * hot


def test_first_shot_into_a_heavy_mold_opens_as_a_single_bait_does():
    mold = {"cavities": 2, "mass_g": 20_000, "start_c": 25}
    plan = planned(mold=mold, bait={"mass_g": 9, "thickest_mm": 10}, ambient_c=25)
    found = next(f.value for f in plan.figures if f.key == "open_s")
    alone = cool_bait.answer({"thickest_mm": 10, "mold_c": 25})["open_s"]
    assert found.typical == pytest.approx(alone["typical"], rel=0.02)


def test_other_draws_keep_the_order_and_wait_for_their_molds():
    # The second draw's plastic cools at half the speed; its hands empty a mold in five seconds,
    # so that the next one is not firm yet when its turn comes.
    slow = np.array([1.0, 0.5])
    both = np.ones(2)
    shot = Shot(0.01 * both, False, 48.0 * both, 165 * both, 60 * both, 7e-8 * slow, 0.13 * both)
    made = bait_in_mold(shot, Mold(900.0 * both, 0.5 * both, 800 * both, 22 * both))
    cup = HotCup(300 * both, 175, 155, 22 * both, 1750 * both, 480 * both)
    hands = Hands(10 * both, 20 * both, np.array([75.0, 5.0]), 20 * both, 0 * both)
    found = rotated(Pour(4, 25 * both, 2, 2, 25 * both), hands, cup, made)
    firm = iter(found.open_s)
    ready = {}
    for act in found.acts:
        if act.doing is Doing.SHOOT:
            ready[act.mold] = act.end_s + next(firm)
        if act.doing is Doing.OPEN:
            assert (act.start_s >= ready[act.mold] - 1e-6).all()
    assert found.open_s[0][1] > 1.8 * found.open_s[0][0]


def test_a_sheet_frozen_before_pouring_was_followed_still_opens():
    kept = to_json(planned())
    del kept["pour"]
    plan = revived(BatchPlan, kept)
    assert plan.pour is None
    assert plan_view(plan).pour_chart is None
    del kept["shots"]
    with pytest.raises(KeyError):
        revived(BatchPlan, kept)


def test_a_cup_of_very_many_shots_is_followed_for_some():
    plan = planned(bait={"mass_g": 1}, mold={"cavities": 1}, count=200)
    assert plan.cups[0].shots > 40
    assert plan.pour is not None
    assert (plan.pour.shots, plan.pour.whole) == (40, False)


@pytest.mark.parametrize("target_c", [150, 160, 190])
def test_cooler_and_hotter_targets(target_c):
    pour = planned(oven={"target_c": target_c}).pour
    assert pour is not None
    assert 5 < pour.minutes.low <= pour.minutes.typical <= pour.minutes.high < 400
    assert max(a.cup_c for a in pour.acts) <= target_c + 1e-6


def test_chart_keeps_inside_its_box():
    view = plan_view(planned(mold={"cavities": 2, "owned": 3}))
    chart = view.pour_chart
    assert chart is not None
    assert [r.word for r in chart.rows] == ["hands", "oven", "mold 1", "mold 2", "mold 3"]
    assert 2 <= len(chart.ticks) <= 10
    for bar in chart.bars:
        assert bar.x >= LEFT
        assert bar.x + bar.width <= WIDTH
        assert chart.top <= bar.y < bar.y + chart.bar <= chart.bottom
    # One mold never overlaps itself.
    rows: dict[float, list[tuple[float, float]]] = {}
    for bar in chart.bars:
        rows.setdefault(bar.y, []).append((bar.x, bar.x + bar.width))
    for spans in rows.values():
        spans.sort()
        assert all(a[1] <= b[0] + 0.11 for a, b in pairwise(spans))
