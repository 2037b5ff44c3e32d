"""What the filling calculations refuse, advise and say."""

from __future__ import annotations

import math

import numpy as np
import pytest

from fill_bench import COLD, feed, grub, one, piece, push, stick, tubes, worm
from pourwright.base.band import Band
from pourwright.base.draws import Draws
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.record import from_json
from pourwright.fill.air import Vent
from pourwright.fill.air_way import AirWay, air_in
from pourwright.fill.chance import chance
from pourwright.fill.hold import fill_hold
from pourwright.fill.join import fill_join
from pourwright.fill.march import march
from pourwright.fill.narrowed import narrowed, way_of
from pourwright.fill.odds import OddsInput, fill_odds
from pourwright.fill.outcome import outcome, stop_of
from pourwright.fill.push import Push, force_draws
from pourwright.fill.setup import one_push
from pourwright.fill.slice import SlicePart, chain_of
from pourwright.fill.timed_shot import fill_timed_shot
from pourwright.forecast.shot_on_load import fill_load
from pourwright.matter import flow, setting
from pourwright.matter.air import viscosity_pa_s as air_pa_s
from pourwright.physics.duct import thin_slot_resistance

HELD = {"gates": [{"thick_mm": 4}], "thickest_mm": 13, "melt_c": 165, "mold_c": 30}


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"chain": []}, "chain: must have 1 to 200 entries"),
        ({"chain": [piece(30, 4, 6)]}, r"chain\[0\].thick_mm: must not exceed the width of 4 mm"),
        (
            {"chain": [piece(30, 8, 8), *feed(1)], "cavities": 1},
            r"chain\[1\].part: a sprue cannot come after a cavity",
        ),
        ({"cavities": 9}, "cavities: the chain ends in 4 of a slice"),
        ({"push": "lever or ram"}, "push_n: is required for a lever or ram"),
        ({"push": "hand pour", "push_n": 100}, "push_n: goes with a plunger"),
        ({"melt_c": math.nan}, "melt_c: must be a finite number"),
        ({"melt_c": 260}, "melt_c: must lie between 100 and 220 °C"),
        ({"bore_mm": 0}, "bore_mm: must lie between"),
        ({"branches": [{"path_mm": 20, "least_thick_mm": 2, "branch_mm": 30}]}, "branch_mm: must"),
        (
            {"branches": [{"path_mm": 20, "least_thick_mm": 2, "root_thick_mm": 1}]},
            "root_thick_mm: must not be under the least thickness",
        ),
        ({"viscosity": 2}, "viscosity: is not known here"),
    ],
)
def test_nonsense_is_refused_by_name(changed, words):
    with pytest.raises(BadInput, match=words):
        fill_odds.answer(stick(4) | changed)


def test_hotter_plastic_is_never_advised_over_the_limit():
    def hotter(**known):
        told = fill_odds.answer(grub(2, **known))
        how = [h["how"] for h in told["helps"] if h["change"] == "hotter plastic"]
        return how, " ".join(told["notes"])

    how, notes = hotter(melt_c=155)
    assert "165 °C / 329 °F" in how[0]
    assert "no data sheet entered" in notes
    assert "no more than 170 °C / 338 °F at the push" in notes
    # The cup is hotter than the push: the cautious limit of 180 °C leaves that 170 °C.
    assert "170 °C / 338 °F" in hotter(melt_c=165)[0][0]
    assert hotter(melt_c=170)[0] == []
    # A data sheet lets the limit rise to 200 °C and no further.
    assert "190 °C / 374 °F" in hotter(melt_c=185, flash_point_c=300)[0][0]
    assert hotter(melt_c=190, flash_point_c=300)[0] == []
    assert "148 °C / 298 °F" in hotter(melt_c=145, flash_point_c=168)[0][0]
    how, notes = hotter(melt_c=190)
    assert how == []
    assert "over the limit of 180 °C" in notes
    assert "let it cool" in notes


def test_every_harder_push_says_how_to_be_safe():
    told = fill_odds.answer(stick(4, melt_c=150))
    harder = [
        h for h in told["helps"] if h["change"] in {"smaller bore", "two hands on the plunger"}
    ]
    assert len(harder) == 2
    for help_ in harder:
        assert "face shield" in help_["how"]
        assert "clamp harder" in help_["how"]
    assert any("nobody in line with the parting line" in n for n in told["notes"])


def test_every_push_and_every_pour_says_what_to_wear_and_to_keep_dry():
    for pusher in ("one hand", "hand pour"):
        notes = " ".join(fill_odds.answer(stick(4, push=pusher))["notes"])
        assert "face shield" in notes
        assert "bone dry" in notes


def test_advice_fits_the_push():
    def offered(**known):
        return {h["change"] for h in fill_odds.answer(stick(4, **known))["helps"]}

    by_hand = offered(melt_c=160)
    assert by_hand == {
        "hotter plastic", "warmer mold", "one cavity fewer", "bigger gate", "smaller bore",
        "two hands on the plunger", "vents",
    }  # fmt: skip
    assert offered(push="two hands") == by_hand - {"two hands on the plunger"}
    assert offered(air="vents") == by_hand - {"vents"}
    poured = offered(push="hand pour")
    assert {"taller head", "injector instead of pouring"} < poured
    assert not poured & {"smaller bore", "vents"}
    single = fill_odds.answer(
        {"chain": [piece(60, 8, 8)], "melt_c": 165, "mold_c": 75, "bore_mm": 35}
    )
    assert not {"one cavity fewer", "bigger gate", "warmer mold"} & {
        h["change"] for h in single["helps"]
    }


def test_helps_are_the_same_push_with_that_one_thing_changed():
    told = fill_odds.answer(stick(4, melt_c=152))
    by = {h["change"]: h["odds"] for h in told["helps"]}
    assert by["hotter plastic"] == fill_odds.answer(stick(4, melt_c=162))["odds"]["typical"]
    assert by["warmer mold"] == fill_odds.answer(stick(4, melt_c=152, mold_c=50))["odds"]["typical"]
    assert by["vents"] == fill_odds.answer(stick(4, melt_c=152, air="vents"))["odds"]["typical"]
    both = fill_odds.answer(stick(4, melt_c=152, push="two hands"))["odds"]["typical"]
    assert both > told["odds"]["typical"] + 0.05
    assert by["two hands on the plunger"] == pytest.approx(both, abs=0.04)
    assert by["smaller bore"] == pytest.approx(
        fill_odds.answer(stick(4, melt_c=152, bore_mm=35 * 0.85))["odds"]["typical"]
    )


def test_a_thin_gate_is_where_it_shuts():
    chain = [piece(30, 8, 8, 1, "sprue"), piece(6, 0.8, 0.8, 1, "gate"), piece(90, 12, 12)]
    told = fill_odds.answer({"chain": chain, "melt_c": 165, "mold_c": 25, "bore_mm": 35})
    assert told["odds"]["typical"] < 0.5
    assert told["stop"]["shut_in"] == "gate"
    assert 30 < told["stop"]["shut_mm"]["typical"] < 36
    assert told["stop"]["front_mm"]["typical"] > 30
    assert told["helps"][0]["change"] == "bigger gate"


def test_a_full_mold_has_nowhere_to_stop():
    told = fill_odds.answer(worm(1, melt_c=180, melt_pa_s=0.5))
    assert told["odds"]["typical"] == 1
    assert told["stop"] is None
    assert told["filled_share"] == {"low": 1, "typical": 1, "high": 1}
    section = math.pi / 4
    feed_ml = section * (8**2 * 40 + 6**2 * 22 + 4**2 * 4) / 1000
    body_ml = section * (9**2 * 75 + 7**2 * 40 + 4**2 * 35) / 1000
    assert told["shot_ml"] == pytest.approx(feed_ml + body_ml)


def test_plastic_that_no_longer_flows():
    told = fill_odds.answer(stick(1, melt_c=112, melt_doubt_k=0))
    assert told["odds"]["typical"] == 0
    assert told["filled_share"]["typical"] == 0
    assert told["fill_s"] is None
    assert told["stop"]["front_mm"]["high"] < 127 + 66
    assert any("no longer flows" in n for n in told["notes"])


def test_a_thin_leg_beside_a_fat_body_is_judged_by_itself():
    leg = {"path_mm": 40, "least_thick_mm": 0.7, "branch_mm": 24, "label": "leg"}
    chain = [*feed(2), piece(60, 10, 10, 2)]
    known = {"chain": chain, "cavities": 2, "melt_c": 158, "mold_c": 28, "bore_mm": 35}
    plain, legged, fat = (
        fill_odds.answer(known | {"branches": b}) for b in ([], [leg], [leg | {"root_thick_mm": 5}])
    )
    assert legged["odds"]["typical"] < plain["odds"]["typical"] - 0.1
    assert fat["odds"]["typical"] > legged["odds"]["typical"]
    assert legged["branches"][0]["label"] == "leg"
    assert any("thin branch" in n for n in legged["notes"])
    # The far end of the chain itself is not judged twice.
    itself = fill_odds.answer(known | {"branches": [leg | {"branch_mm": 40}]})
    assert itself["branches"] == []
    assert itself["odds"] == plain["odds"]


def test_what_stands_in_for_an_unmeasured_branch():
    def told(**more):
        branch = {"path_mm": 60, "least_thick_mm": 1} | more
        return fill_odds.answer(stick(2, melt_c=145, branches=[branch]))["branches"][0]["odds"]

    # A third of the way, twice as thick at the root of a leg, even for a fin.
    assert told() == told(branch_mm=20, root_thick_mm=2)
    assert told(flat=True) == told(flat=True, branch_mm=20, root_thick_mm=1)
    assert told(root_thick_mm=4)["typical"] > told()["typical"]


def test_notes_name_only_the_defaults_that_were_used():
    def named(**known):
        notes = fill_odds.answer(stick(4, **known))["notes"]
        return {n.split(" was left out")[0] for n in notes if "was left out" in n}

    assert named() == {"plunger_m_s", "melt_pa_s", "push_n"}
    assert named(push_n=100, melt_pa_s=2, plunger_m_s=0.05) == set()
    assert named(push="hand pour") == {"head_mm", "melt_pa_s"}


def test_a_mold_without_vents_holds_the_plastic_back():
    tight, leaking, vented = (
        chance(outcome(one_push(Draws(), from_json(OddsInput, worm(1, melt_c=170, air=w)))).full)
        for w in (AirWay.TIGHT, AirWay.LEAKS, AirWay.VENTED)
    )
    assert tight.typical < leaking.typical <= vented.typical
    gaps = [float(air_in(Draws(), way, ends=2).resistance[0]) for way in AirWay]
    assert gaps == sorted(gaps)
    assert air_in(Draws(), AirWay.TIGHT, ends=1).resistance[0] == pytest.approx(2 * gaps[2])


def test_two_hands_are_those_of_the_same_person():
    hand, both = (force_draws(Draws(), p, None) for p in (Push.ONE_HAND, Push.TWO_HANDS))
    assert (both > 1.4 * hand).all()
    assert (both < 2 * hand).all()
    assert (np.argsort(hand) == np.argsort(both)).all()
    assert (force_draws(Draws(), Push.RAM, Band(500, 500, 500)) == 500).all()


def test_a_plugged_cavity_leaves_its_runner_dry():
    chain = chain_of(from_json(SlicePart, row) for row in stick(2)["chain"])
    left = chain.with_cavities(2, 1)
    assert {p.value: c for p, c in zip(left.part, left.copies, strict=True)} == {
        "sprue": 1, "runner": 1, "gate": 1, "cavity": 1,
    }  # fmt: skip


def test_only_the_drawn_cases_say_where_it_stops():
    found = outcome(one_push(Draws(), from_json(OddsInput, worm(1, melt_c=180, melt_pa_s=0.5))))
    assert stop_of(found) is None
    found.front.going[0] = False
    assert stop_of(found) is None
    found.front.going[1] = False
    stop = stop_of(found)
    assert stop is not None
    assert stop.share == pytest.approx(1 / 160)


def test_vents_are_the_same_in_both_questions():
    gap = float(air_in(Draws(), AirWay.VENTED, ends=3.0).resistance[0])
    usual = Vent()
    slot = thin_slot_resistance(
        float(air_pa_s(60)), usual.length_mm / 1000, usual.width_mm / 1000, usual.depth_mm / 1000
    )
    assert gap == pytest.approx(float(slot) / 3)


def test_long_chains_are_taken_as_they_come():
    many = chain_of(from_json(SlicePart, piece(1, 6, 4)) for _ in range(150))
    assert len(many.part) == 150
    short = chain_of([from_json(SlicePart, piece(150, 6, 4))])
    assert 50 < len(short.part) <= 61
    assert many.volume_m3.sum() == pytest.approx(short.volume_m3.sum())
    assert short.at(0) == 0
    assert short.at(0.0749) == short.at(0.0751) - (len(short.part) % 2 == 0)
    assert short.at(9) == len(short.part) - 1


def test_the_plastic_is_taken_as_the_skin_is_in_the_middle_of_a_step():
    # One slice in two steps: the skin of the second is that of three quarters of the way.
    chain = chain_of([from_json(SlicePart, piece(1.9, 4, 4))])
    shot = push(chain, chill=COLD, viscosity=30.0, pressure=2e4, most=1e-7)
    part_m3, flow = chain.volume_m3.sum() / 2, 1e-7
    way = way_of(chain, COLD)
    later = narrowed(way, one(30), age_s=one(1.5 * part_m3 / flow)[None, :], flow_m3_s=one(flow))
    free = 2e4 / (0.75 * later.resistance.sum())
    assert flow < free
    eased = push(chain, chill=COLD, viscosity=30.0, pressure=2e4 * flow / free / 1.001, most=1e-7)
    assert march(shot).flow_m3_s.item() == pytest.approx(flow)
    assert march(eased).flow_m3_s.item() < flow


def test_a_front_that_stops_says_where():
    found = march(push(tubes((200, 3, 1)), chill=COLD, viscosity=4.0, pressure=6e4))
    assert not found.going.item()
    assert 0 <= found.shut.item() < 100
    assert 0 < found.length_m.item() < 0.2


# A timed shot.


TIMED = worm(3, air="vents", push_n=110, plunger_m_s=0.08, melt_doubt_k=2)


@pytest.mark.parametrize("truth", [1.2, 2.0, 3.5])
def test_a_timed_shot_finds_the_viscosity_that_made_it(truth):
    draws = Draws(count=40)
    known = from_json(OddsInput, TIMED | {"melt_pa_s": truth})
    seconds = float(outcome(one_push(draws, known)).front.clock_s[0])
    told = fill_timed_shot.answer(TIMED | {"shots": [{"fill_s": seconds}] * 3, "watch_s": 0.1})
    found = told["melt_pa_s"]
    assert found["low"] < truth < found["high"]
    assert found["typical"] == pytest.approx(truth, rel=0.3)
    assert told["factor_now"] < 1.8 < told["factor_before"]
    # Handed on, it narrows the time of the next shot.
    later, before = (
        fill_odds.answer(TIMED | more)["fill_s"] for more in ({"melt_pa_s": found}, {})
    )
    assert later["high"] / later["low"] < before["high"] / before["low"]


def test_beliefs_go_on_from_the_last_one_but_never_grow_too_sure():
    many = fill_timed_shot.answer(TIMED | {"shots": [{"fill_s": 1.0}] * 8, "watch_s": 0.1})
    assert many["factor_now"] >= 1.27
    first = fill_timed_shot.answer(TIMED | {"shots": [{"fill_s": 1.0}]})
    second = fill_timed_shot.answer(
        TIMED | {"shots": [{"fill_s": 1.0}], "melt_pa_s": first["melt_pa_s"]}
    )
    assert second["factor_before"] == pytest.approx(first["factor_now"], rel=1e-6)
    assert second["factor_now"] <= first["factor_now"]


def test_shots_told_one_after_the_other_share_what_is_off_in_the_push():
    # Push 80 to 150 N and bore 28 to 45 mm unmeasured: 0.19 and 0.29 of the pressure's logarithm,
    # 0.35 together, beside 0.65 of the viscosity's own: 0.30, a factor of 1.65 nine times in ten.
    unmeasured = {k: v for k, v in TIMED.items() if k not in {"push_n", "bore_mm"}}
    known = {"shots": [{"fill_s": 1.2}] * 8, "watch_s": 0.1, "melt_pa_s": None}
    factors = []
    for _ in range(4):
        told = fill_timed_shot.answer(unmeasured | known)
        known["melt_pa_s"] = told["melt_pa_s"]
        factors.append(told["factor_now"])
    assert factors[-1] <= factors[0]
    assert factors[-1] == pytest.approx(1.65, abs=0.1)


def test_slow_shots_tell_of_thick_plastic_and_hot_ones_of_thin():
    quick, slow = (
        fill_timed_shot.answer(TIMED | {"shots": [{"fill_s": s}]})["melt_pa_s"]["typical"]
        for s in (0.6, 2.0)
    )
    assert slow > 1.5 * quick
    # The same seconds, read at a hotter push: at 170 °C that plastic is thicker.
    hotter = fill_timed_shot.answer(TIMED | {"shots": [{"fill_s": 2.0, "melt_c": 180}]})
    assert hotter["melt_pa_s"]["typical"] > 1.2 * slow


def test_a_time_that_no_viscosity_gives_has_no_answer():
    with pytest.raises(NoAnswer, match=r"no viscosity within reach .* fills this mold"):
        fill_timed_shot.answer(TIMED | {"shots": [{"fill_s": 60}], "watch_s": 0.05})


def test_a_shot_that_the_plunger_limits_tells_nothing():
    wide = {"chain": [piece(60, 12, 12)], "melt_c": 175, "mold_c": 40, "bore_mm": 35,
            "air": "vents", "push_n": 400, "plunger_m_s": 0.01}  # fmt: skip
    told = fill_timed_shot.answer(wide | {"shots": [{"fill_s": 0.7}]})
    assert told["factor_now"] > 2.3
    assert any("hardly tell the viscosity" in n for n in told["notes"])


# Holding.


def test_hold_says_what_helps():
    told = fill_hold.answer(HELD)
    dents = [h["dent_mm"] for h in told["helps"]]
    assert len(dents) == 3
    assert dents == sorted(dents)
    assert dents[-1] < told["dent_mm"]["typical"]
    assert any("fatter gate" in n for n in told["notes"])
    assert any("face shield" in n for n in told["notes"])


def test_the_slowest_gate_counts_and_a_flat_one_shuts_with_its_thickness():
    two = fill_hold.answer(HELD | {"gates": [{"thick_mm": 3}, {"thick_mm": 5}]})
    assert two["first_shut_s"]["typical"] < two["last_shut_s"]["typical"]
    assert two["hold_s"] == two["last_shut_s"]
    # Time goes with the square of the thickness, the film worth 0.14/1000 m more on either face.
    ratio = two["last_shut_s"]["typical"] / two["first_shut_s"]["typical"]
    assert ratio == pytest.approx((5.28 / 3.28) ** 2)
    flat, square, rod = (
        fill_hold.answer(HELD | {"gates": [{"thick_mm": 3, "width_mm": w}]})["hold_s"]["typical"]
        for w in (30, 4, 3)
    )
    assert rod < square < flat < 2.3 * rod


def test_a_gate_fatter_than_the_bait_need_not_be_waited_for():
    told = fill_hold.answer(HELD | {"gates": [{"thick_mm": 25}]})
    assert told["hold_s"] == told["body_sets_s"]
    assert told["dent_mm"]["high"] == 0
    assert told["last_shut_s"]["typical"] > told["hold_s"]["typical"]


def test_a_mold_too_warm_never_shuts_the_gate():
    with pytest.raises(NoAnswer, match="stays above the 130 °C / 266 °F at which it sets"):
        fill_hold.answer(HELD | {"mold_c": 130, "material": "silicone"})
    warm = fill_hold.answer(HELD | {"mold_c": 80, "material": "silicone"})
    assert any("half an hour" in n for n in warm["notes"])
    assert warm["hold_s"]["high"] <= 1800
    with pytest.raises(BadInput, match="width_mm: must not be less than the thickness"):
        fill_hold.answer(HELD | {"gates": [{"thick_mm": 4, "width_mm": 3}]})


# Layers.


def peeled(*tests):
    return [{"join_c": c, "held": h} for c, h in tests]


def test_a_join_is_doubtful_until_peel_tests_settle_it():
    hot, cold = {"first_c": 165, "second_c": 175}, {"first_c": 60, "second_c": 160}
    assert fill_join.answer(hot)["verdict"] == fill_join.answer(cold)["verdict"] == "doubtful"
    held = peeled((165, True), (165, True), (160, True), (155, True))
    assert fill_join.answer(hot | {"peel_tests": held})["verdict"] == "weld"
    # Tests of hotter joins say little of this one.
    far = peeled((190, True), (190, True), (190, True))
    assert fill_join.answer(hot | {"peel_tests": far})["verdict"] == "doubtful"
    apart = peeled((112, False), (115, False), (120, False), (125, False))
    assert fill_join.answer(cold | {"peel_tests": apart})["verdict"] == "peels"
    assert any("pull them apart" in n for n in fill_join.answer(hot)["notes"])


def test_tests_that_disagree_stay_doubtful():
    mixed = peeled((160, True), (160, False), (161, True), (159, False))
    assert (
        fill_join.answer({"first_c": 150, "second_c": 170, "peel_tests": mixed})["verdict"]
        == "doubtful"
    )


def test_the_color_line_hardly_moves_with_temperature():
    told = fill_join.answer({"first_c": 165, "second_c": 175})
    assert 0.5 < told["first_thick_share"]["typical"] < 0.54
    given = fill_join.answer({"first_c": 170, "second_c": 170, "second_thicker_times": 2})
    # The thicker one takes more room: two to one moves the line by a few hundredths.
    assert 0.45 < given["first_thick_share"]["typical"] < 0.49
    assert fill_join.answer({"first_c": 90, "second_c": 175})["first_thick_share"] is None


# Several molds on one load.


def load(*seconds, **known):
    mold = {k: v for k, v in grub(2).items() if k in {"chain", "cavities", "mold_c"}}
    return {
        "molds": [mold | {"since_s": s} for s in seconds],
        "bore_mm": 35,
        "barrel_c": 25,
    } | known


def test_later_molds_fill_less_surely():
    told = fill_load.answer(load(4, 40))
    early, late = told["molds"]
    assert late["melt_c"]["typical"] < early["melt_c"]["typical"] - 5
    assert late["odds"]["typical"] < early["odds"]["typical"]
    assert late["preheated_odds"] > late["cold_odds"]
    assert told["all_odds"]["typical"] <= late["odds"]["typical"]
    assert any("comes too late" in n for n in told["notes"])
    assert early["odds"]["typical"] >= 0.9 > late["odds"]["typical"]
    assert told["well"] == 1
    assert told["well_preheated"] in {1, 2}
    ml = fill_odds.answer(grub(2))["shot_ml"]
    assert any(f"{2 * ml:.0f} mL of hot plastic" in n for n in told["notes"])


def test_a_mold_shot_at_once_is_the_mold_alone():
    at_once = fill_load.answer(load(0, melt_c=160, melt_doubt_k=0))["molds"][0]
    alone = fill_odds.answer(grub(2, melt_c=160, melt_doubt_k=0))
    # The series of the barrel starts within a kelvin.
    assert at_once["melt_c"]["typical"] == pytest.approx(160, abs=1)
    assert at_once["odds"]["typical"] == pytest.approx(alone["odds"]["typical"], abs=0.03)


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        (load(20, 5), "molds: must be in the order they are shot"),
        (load(5, push="hand pour"), "push: draws no load"),
        (load(), "molds: must have 1 to 8 entries"),
    ],
)
def test_loads_that_make_no_sense(changed, words):
    with pytest.raises(BadInput, match=words):
        fill_load.answer(changed)


def test_one_melt_for_every_room():
    # The cup's currents and the mold's flow read one fused viscosity.
    hot, whole = np.array([150.0, 170.0, 190.0]), np.ones(3)
    assert flow.viscosity_pa_s(hot, whole, whole) == pytest.approx(
        flow.melt_viscosity_pa_s(hot, flow.MELT_PA_S.typical, flow.MELT_SLOPE_K.typical)
    )
    assert setting.SETS_C.typical == 130


def test_a_slice_is_shut_only_once_its_skins_all_but_meet():
    way = way_of(tubes((2, 4, 1)), COLD)
    # Standing melt: the skin is growth times the root of time, here against a flow that stops.
    for share, shut in ((0.6, False), (0.9, False), (0.99, True)):
        age = (share * 0.002 / COLD.growth) ** 2
        found = narrowed(way, one(2), age_s=age[None, :], flow_m3_s=one(1e-12))
        assert found.shut.item() is shut
