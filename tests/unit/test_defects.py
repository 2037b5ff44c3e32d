"""A defect looked into: whose numbers, which verdicts, in which order."""

from __future__ import annotations

import dataclasses
import math

import pytest

from pourwright.actions.catalog import CATALOG
from pourwright.actions.defect_asked import asked
from pourwright.actions.defect_case import (
    DefectCase,
    holds_of,
    lot_case,
    remelt_share,
    usual_case,
)
from pourwright.actions.defect_known import UntoldError
from pourwright.actions.enter_lot import enter_lot
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.heat_budget import BudgetEntry, Hold
from pourwright.actions.keep_record import change_record
from pourwright.actions.see_defects import Counted, DefectSeen, see_defect
from pourwright.base.band import Band
from pourwright.base.errors import BadInput, NotFound
from pourwright.base.record import from_json, to_json
from pourwright.blend.hardness import Grade, HardnessInput, hardness
from pourwright.fill.air import AirInput, Vent, air
from pourwright.fill.air_way import AirWay
from pourwright.fill.bubbles import BubblesInput, bubbles
from pourwright.fill.clamp import ClampInput, clamp
from pourwright.fill.clamp_kinds import Spring
from pourwright.fill.join import JoinInput, fill_join
from pourwright.forecast.request import DosePart, Measure, Sort
from pourwright.heat.history import Did, Step
from pourwright.plan.defect.judge import JUDGES
from pourwright.plan.defect.known import defect_named
from pourwright.plan.defect.likelihood import Likelihood, by_limit, by_odds, too_short
from pourwright.plan.defect.trial import CALCULATIONS, Trial
from pourwright.shop.lot import HeatReading, LotEntry

LIKELY, POSSIBLE = Likelihood.LIKELY, Likelihood.POSSIBLE
UNLIKELY, CANNOT_SAY = Likelihood.UNLIKELY, Likelihood.CANNOT_SAY
ORDER = (UNLIKELY, POSSIBLE, LIKELY)


def look(world, case, key: str, **answers: int) -> DefectSeen:
    with world.bench() as bench:
        return see_defect(bench, case, defect_named(key), answers, now="2026-01-18T09:00:00Z")


def verdicts(seen: DefectSeen) -> dict[str, Likelihood]:
    return {s.cause.key: s.tested.judged.likelihood for s in seen.suspects}


def number(seen: DefectSeen, cause: str, label: str) -> Band:
    judged = next(s.tested.judged for s in seen.suspects if s.cause.key == cause)
    return next(f.value for f in judged.figures if f.label == label)


@pytest.fixture
def lot(world) -> DefectCase:
    with world.bench() as bench:
        return lot_case(bench, 1)


@pytest.fixture
def usual(world) -> DefectCase:
    with world.bench() as bench:
        return usual_case(bench)


def test_a_lot_brings_its_own_readings_and_counts(world, lot):
    # The demo's cups last read 338 and 340 °F; 338 °F are 170 °C by definition of the scale.
    assert lot.melt_c == pytest.approx(170)
    assert lot.flash_point_c == 213
    assert lot.push
    assert lot.push.case.mold.name == "Slough shad mold, two cavities"
    assert lot.push.injector
    counted = look(world, lot, "flash").counted
    assert counted == Counted(bad=2, of=36, sorts=("flash",))
    assert look(world, lot, "bleeding").counted is None


def test_without_a_lot_the_usual_values_stand_in_and_the_heats_are_said_to_be_unknown(world, usual):
    assert usual.lot is None
    # A usual push is at 165 °C, of a cup that was ten kelvin hotter: estimate of the house.
    assert (usual.shot_c, usual.melt_c) == (165, 175)
    seen = look(world, usual, "yellow")
    assert verdicts(seen)["scorched"] is CANNOT_SAY
    assert seen.counted is None


def test_a_shot_is_cooler_than_the_cup_it_was_drawn_from(lot):
    """A barrel takes some ten kelvin, a pour by hand none: estimate of the house."""
    cup_c = lot.melt_c
    assert to_json(asked(Trial.FULL, lot))["melt_c"] == pytest.approx(cup_c - 10)
    assert to_json(asked(Trial.JOIN, dataclasses.replace(lot, told={"apart_s": 0.0}))) == (
        to_json(JoinInput(first_c=cup_c - 10, second_c=cup_c - 10))
    )
    # What still lies in the cup: the load that is drawn, the grain that sinks, the next heating.
    assert to_json(asked(Trial.WINDOW, lot))["melt_c"] == cup_c
    assert to_json(asked(Trial.FLAKE, lot))["plastic_c"] == cup_c
    assert lot.room(yellowed=False).next_c == cup_c + 5


def test_a_pour_by_hand_is_as_hot_as_its_cup(world):
    with world.bench() as bench:
        plan = bench.records.get("draft", "demo-plan").noun
    sheet = freeze_sheet(world, dataclasses.replace(plan, by_hand=True))
    with world.bench() as bench:
        case = lot_case(bench, sheet.number)
    assert case.shot_c == case.melt_c == 175


def test_a_lot_that_is_not_there_is_refused(world):
    with world.bench() as bench, pytest.raises(NotFound, match="99"):
        lot_case(bench, 99)


def test_every_test_of_the_demo_takes_an_input_that_its_calculation_reads(lot, usual):
    put = set()
    for case in (dataclasses.replace(it, told={"apart_s": 0.0}) for it in (lot, usual)):
        for trial in set(Trial) - {Trial.SCORCH, Trial.FUSED}:
            try:
                inputs = asked(trial, case)
            except UntoldError:
                continue
            put.add(trial)
            takes = CATALOG[CALCULATIONS[trial]].takes
            assert from_json(takes, to_json(inputs)) == inputs
    assert put == set(Trial) - {Trial.SCORCH, Trial.FUSED}


def test_the_lifting_force_is_pressure_times_shadow(world, usual):
    """Pascal: force = push over bore area, times the area seen along the pull."""
    inputs = asked(Trial.CLAMP, usual)
    assert isinstance(inputs, ClampInput)
    # One hand pushes about 110 N: common practice, no source.
    by_hand_n = 110 / (math.pi / 4 * 38**2) * 100 * inputs.shadow_cm2
    seen = look(world, usual, "flash")
    assert number(seen, "lifted", "Needed").typical == pytest.approx(by_hand_n, rel=0.01)
    assert verdicts(seen)["lifted"] is UNLIKELY


def test_clamps_that_are_not_on_record_are_asked_for(world, lot):
    seen = look(world, lot, "flash")
    assert verdicts(seen)["lifted"] is CANNOT_SAY
    judged = next(s.tested.judged for s in seen.suspects if s.cause.key == "lifted")
    assert "record" in judged.measure
    assert number(seen, "lifted", "Needed").typical > 0


def test_two_drops_of_water_make_170_ml_of_steam(world, lot):
    """Ideal gas: 0.1 g of water at 100 °C and one atmosphere is 0.1/18.015 · R · 373.15 / p."""
    by_gas_ml = 0.1 / 18.015 * 8.3145 * 373.15 / 101325 * 1e6
    steam = number(look(world, lot, "foam"), "damp", "Steam that two drops of water make")
    assert steam.typical == pytest.approx(by_gas_ml, rel=0.001)


def test_half_an_hour_at_190_c_uses_the_whole_budget(world, lot):
    """By definition of the budget, with a stabilizer of thirty minutes."""
    held = Hold(held_min=30, mean_c=190, hottest_c=190)
    spent = BudgetEntry(used_share=0, holds=(held,), stable_at_190c_min=30)
    case = dataclasses.replace(lot, budget=spent)
    seen = look(world, case, "yellow")
    assert number(seen, "scorched", "Heat budget used").typical == pytest.approx(1, abs=0.01)
    assert verdicts(seen)["scorched"] is LIKELY
    assert "heat budget" in case.room(yellowed=False).closed_by
    half = dataclasses.replace(spent, holds=(dataclasses.replace(held, held_min=9),))
    case = dataclasses.replace(lot, budget=half)
    assert verdicts(look(world, case, "yellow"))["scorched"] is POSSIBLE


@pytest.mark.parametrize(
    ("key", "ask", "cause", "expected"),
    [
        ("dent", "held", "let_go", (LIKELY, POSSIBLE, LIKELY, LIKELY)),
        ("dent", "waited", "opened_soon", (LIKELY, LIKELY, LIKELY, POSSIBLE)),
        ("bubbles", "stood", "stirred_in", (LIKELY, LIKELY, UNLIKELY)),
        ("flake", "stood", "sank", (UNLIKELY, UNLIKELY, LIKELY)),
    ],
)
def test_what_is_told_decides_the_verdict(world, lot, key, ask, cause, expected):
    """Orders of magnitude of the trade: gates of some millimeters shut in seconds, a bait of
    14 mm is firm in minutes, half-millimeter bubbles take about ten minutes. Common practice, no
    source; flake of 0.4 mm sinks a fraction of a millimeter a minute by Stokes.
    """
    found = tuple(
        verdicts(look(world, lot, key, **{ask: place}))[cause] for place in range(len(expected))
    )
    assert found == expected


@pytest.mark.parametrize("floats", [0, 1])
def test_a_bait_near_neutral_may_do_either(world, lot, floats):
    # 57.4 g for five baits of 11.41 mL: 1.006 g/mL, a hair heavier than fresh water.
    found = verdicts(look(world, lot, "sinking", does=floats))["density"]
    assert found is (POSSIBLE, LIKELY)[floats]


def test_answers_move_a_cause_up_and_down(world, lot):
    plain = [s.cause.key for s in look(world, lot, "short").suspects]
    ragged = look(world, lot, "short", end=1, when=2)
    assert ragged.suspects[0].cause.key == "stopped"
    assert ragged.suspects[-1].cause.key == "cold_start"
    assert plain[0] == "air"
    assert [s.worth for s in ragged.suspects] == sorted(
        (s.worth for s in ragged.suspects), reverse=True
    )


def test_an_answer_that_a_question_does_not_have_is_refused(world, lot):
    with pytest.raises(BadInput, match="must be 0 to 3"):
        look(world, lot, "dent", held=4)


def test_a_tight_mold_without_vents_is_likely_to_keep_air(world, usual):
    assert verdicts(look(world, usual, "tip"))["air"] is POSSIBLE
    with world.bench() as bench:
        stored = bench.records.get("mold", "demo-mold-worm")
    tight = dataclasses.replace(stored.noun, air=AirWay.TIGHT)
    change_record(world, tight, id=stored.id, expected_version=stored.version)
    with world.bench() as bench:
        case = usual_case(bench)
    assert verdicts(look(world, case, "tip"))["air"] is LIKELY


def test_readings_noted_with_the_lot_count_where_its_cups_have_none(world):
    with world.bench() as bench:
        plan = bench.records.get("draft", "demo-plan").noun
    sheet = freeze_sheet(world, plan)
    with world.bench() as bench:
        fresh = lot_case(bench, sheet.number)
    # The plan asks for 175 °C; the hot limit by a flash point of 213 °C leaves that alone.
    assert (fresh.melt_c, fresh.budget.used_share) == (175, None)
    assert verdicts(look(world, fresh, "undercooked"))["undercooked"] is CANNOT_SAY
    noted = (HeatReading(on_s=60, read_c=168), HeatReading(on_s=5, read_c=60))
    enter_lot(world, sheet.number, LotEntry(shots=7, good=20, short=3, readings=noted))
    with world.bench() as bench:
        case = lot_case(bench, sheet.number)
    assert case.melt_c == 168
    counted = look(world, case, "short").counted
    assert counted == Counted(bad=3, of=23, sorts=("short",))


def test_a_cup_without_readings_cannot_be_said_to_be_cooked(world, lot):
    blind = dataclasses.replace(lot, lot=dataclasses.replace(lot.lot, cups={}))
    assert verdicts(look(world, blind, "undercooked"))["undercooked"] is CANNOT_SAY
    assert verdicts(look(world, lot, "undercooked"))["undercooked"] is UNLIKELY


def test_what_the_bench_does_not_know_is_said(lot):
    none = dataclasses.replace(lot, push=None, missing="the sheet names no mold of the bench")
    with pytest.raises(UntoldError, match="The sheet names no mold"):
        asked(Trial.FULL, none)
    with pytest.raises(UntoldError, match="no salt"):
        asked(Trial.SALT, lot)
    with pytest.raises(UntoldError, match="face of the first layer"):
        asked(Trial.JOIN, dataclasses.replace(lot, told={"apart_s": 10.0}))
    with pytest.raises(UntoldError, match="how long the first layer cooled"):
        asked(Trial.JOIN, lot)


@pytest.mark.parametrize(("count", "says"), [(1, "may well lift"), (8, "clamps hold")])
def test_clamps_that_may_give_way_are_not_said_to_hold(count, says):
    """Pascal: 110 N on 35 mm over 38 cm² lift with 434 N; a spring clamp holds 150."""
    judged = JUDGES[Trial.CLAMP](
        clamp(ClampInput(shadow_cm2=38, bore_mm=35, clamps=(Spring(count=count),))), {}
    )
    assert says in judged.words
    assert ("likely cause" in judged.words) is (says == "clamps hold")


def test_a_minute_that_nobody_timed_is_said(world, lot):
    def words(**answers: int) -> str:
        seen = look(world, lot, "flake", **answers)
        return next(s.tested.judged.words for s in seen.suspects if s.cause.key == "sank")

    assert "60 s unstirred stand in" in words()
    assert "stand in" not in words(stood=1)


def test_plain_plastic_sinks_as_it_is_not_as_its_cavity_holds(usual):
    """A bait shrinks but weighs what it weighs: plain plastic is 1.05 g/mL by its parts."""
    assert to_json(asked(Trial.SINK, usual))["density_g_ml"]["typical"] == pytest.approx(
        1.05, abs=0.005
    )


def test_a_dose_nobody_weighed_is_taken_as_a_usual_one(lot):
    request = lot.lot.request
    dose = DosePart(name="Soft", sort=Sort.SOFTENER, per_100g=2, measure=Measure.SPOONS)
    layers = (dataclasses.replace(request.layers[0], share=1.0, doses=(dose,)),)
    changed = dataclasses.replace(request, layers=layers)
    case = dataclasses.replace(lot, lot=dataclasses.replace(lot.lot, request=changed))
    # A level teaspoon of softener: about 2.6 g, estimate.
    assert to_json(asked(Trial.SOFTNESS, case))["softener_per_100g"] == pytest.approx(5.2)


def test_an_unweighed_feed_holds_air_too(usual):
    case = usual.push.case
    bare = dataclasses.replace(case, mold=dataclasses.replace(case.mold, feed_ml=None))
    push = dataclasses.replace(usual.push, case=bare)
    whole = to_json(asked(Trial.AIR, dataclasses.replace(usual, push=push)))["cavity_ml"]
    assert whole > 4 * usual.push.bait.volume_ml.typical + 1


def test_the_words_for_odds_limits_and_times():
    assert [by_odds(p) for p in (0.04, 0.05, 0.29, 0.3)] == [UNLIKELY, POSSIBLE, POSSIBLE, LIKELY]
    assert by_limit(Band(0, 1, 2), 1) is LIKELY
    assert by_limit(Band(0, 1, 2), 1.5) is POSSIBLE
    assert by_limit(Band(0, 1, 2), 2.5) is UNLIKELY
    takes = Band(5, 10, 20)
    assert [too_short(s, takes) for s in (9, 10, 19, 20)] == [LIKELY, POSSIBLE, POSSIBLE, UNLIKELY]


def test_longer_rest_never_makes_bubbles_likelier():
    answer, judge = bubbles(BubblesInput(bubble_mm=0.5)), JUDGES[Trial.BUBBLES]
    found = [ORDER.index(judge(answer, {"stood_min": m}).likelihood) for m in (1, 5, 20, 90, 600)]
    assert found == sorted(found, reverse=True)
    assert found[0] > found[-1]


def test_a_lots_recipe_and_room_go_into_its_questions(lot, usual):
    assert to_json(asked(Trial.COLD_MOLD, lot))["mold_c"] == 22
    assert to_json(asked(Trial.SOFTNESS, lot))["softener_per_100g"] == 6
    flake = to_json(asked(Trial.FLAKE, dataclasses.replace(lot, told={"still_s": 300.0})))
    assert (flake["size_mm"], flake["film_um"], flake["stand_s"]) == (0.4, 25, 300)
    # 0.06 level teaspoons of 2.8 g to 100 g.
    assert flake["grams_per_100g"] == pytest.approx(0.168)
    salt = to_json(asked(Trial.SALT, dataclasses.replace(usual, told={"grain_mm": 0.05})))
    assert salt["size_mm"] == 0.05
    whole = to_json(asked(Trial.AIR, usual))
    assert whole["cavity_ml"] == pytest.approx(4 * usual.push.bait.volume_ml.typical + 5, rel=0.01)
    assert whole["vents"] == []


def test_vents_on_record_are_weighed_against_the_push(usual):
    case = usual.push.case
    vented = dataclasses.replace(case.mold, air=AirWay.VENTED)
    push = dataclasses.replace(usual.push, case=dataclasses.replace(case, mold=vented))
    assert len(to_json(asked(Trial.AIR, dataclasses.replace(usual, push=push)))["vents"]) == 1
    judge = JUDGES[Trial.AIR]
    wide, narrow = (
        air(AirInput(cavity_ml=30, vents=(Vent(count=8, depth_mm=d),))) for d in (0.3, 0.005)
    )
    assert judge(wide, {}).likelihood is UNLIKELY
    assert judge(narrow, {}).likelihood is LIKELY


def test_layers_that_met_cold_are_suspected():
    """Under 130 °C layers peel, from 150 °C on they hold: common practice, no source."""
    judge = JUDGES[Trial.JOIN]
    assert judge(fill_join(JoinInput(first_c=80, second_c=160)), {}).likelihood is LIKELY
    assert judge(fill_join(JoinInput(first_c=175, second_c=175)), {}).likelihood is not LIKELY


@pytest.mark.parametrize(("softener_g", "said"), [(30, "softer"), (0, "as hard")])
def test_softener_makes_it_softer_than_the_label(softener_g, said):
    own = (Grade(name="own", grams_g=100, hardness_oo=50), Grade(name="none", hardness_oo=50))
    answer = hardness(HardnessInput(grades=own, softener_per_100g=softener_g))
    judged = JUDGES[Trial.SOFTNESS](answer, {"label_oo": 50.0})
    assert said in judged.words
    assert judged.likelihood is (LIKELY if softener_g else UNLIKELY)
    assert JUDGES[Trial.SOFTNESS](answer, {}).likelihood is CANNOT_SAY


def test_a_cup_is_hot_from_reading_to_reading_and_until_it_is_drawn():
    steps = (
        Step(did=Did.READ, at_s=0, read_c=60),
        Step(did=Did.READ, at_s=60, read_c=170),
        Step(did=Did.READ, at_s=180, read_c=165),
        Step(did=Did.DRAWN, at_s=480, mass_g=50),
    )
    assert [(h.held_min, h.mean_c) for h in holds_of(steps)] == [(1, 170), (2, 170), (5, 165)]


def test_remelt_brings_a_usual_heat_along_by_its_share(world):
    with world.bench() as bench:
        plan = bench.records.get("draft", "demo-plan").noun
    plan = dataclasses.replace(plan, remelt="demo-remelt", remelt_g=60)
    sheet = freeze_sheet(world, plan)
    with world.bench() as bench:
        lot = lot_case(bench, sheet.number).lot
    assert lot
    total = sum(c["total_g"] for c in sheet.plan["cups"])
    used = sum(c["remelt_g"] for c in sheet.plan["cups"])
    assert 0 < used <= 60
    # A usual heat uses 0.15 of the budget: estimate.
    assert remelt_share(lot) == pytest.approx(0.15 * used / total)


def test_the_coolest_cup_is_asked_whether_it_was_cooked(world, lot):
    found = look(world, lot, "undercooked").suspects
    assert next(s.tested.cup for s in found if s.cause.key == "undercooked") == 1
