"""One mold and one push: odds, waste, clamps, cavities, and what a stopwatch adds."""

from __future__ import annotations

import dataclasses
import math
from typing import Any

import pytest

from fake_bench import FakeJobs, FakeStore
from pourwright.actions.mold_case import MoldEntry, first_entry, mold_case
from pourwright.actions.mold_question import odds_asked, push_case
from pourwright.actions.plan_batch import plan_batch
from pourwright.actions.port import World
from pourwright.actions.see_mold import MoldSeen, see_mold, shadow_cm2
from pourwright.actions.time_shot import believed, keep_timed_shot, undo_timed_shot
from pourwright.base.errors import BadInput, Conflict, NoAnswer, NotFound
from pourwright.body.body_input import BodyInput
from pourwright.body.families.craw import Craw
from pourwright.body.families.stick import Stick
from pourwright.fill.clamp_kinds import Bar, Bolt
from pourwright.fill.push import Push
from pourwright.fill.slice import Part, SlicePart
from pourwright.forecast.cavity_count import CavityCountInput, mold_cavities
from pourwright.forecast.full_odds import full_odds
from pourwright.forecast.mold_feed import MoldFeed, sizes, volume_ml
from pourwright.forecast.mold_way import MOST_BRANCHES, cavity_of, feed_of, way_of
from pourwright.matter.mold_material import MoldMaterial
from pourwright.shop.draft import Draft
from pourwright.shop.material import Plastic
from pourwright.shop.mold import Bait, ClampRow, Mold
from pourwright.shop.noun import Noun
from pourwright.shop.tool import Injector

STICK = Stick(length_mm=90, rings=0, sac_mm=0)
PUSH = MoldEntry(plastic="plastic", injector="injector", push_n=110, melt_c=165, mold_c=30, molds=1)


def world_of(**nouns: Noun) -> World:
    store, stub = FakeStore(), None
    made = World(
        bench=store.bench, reading=store.bench, clock=store.clock, ids=store.ids, jobs=FakeJobs(),
        printer=stub, picture=stub, readers=stub, spectra=stub, exchange=stub,  # type: ignore[arg-type]
    )  # fmt: skip
    usual: dict[str, Noun] = {
        "bait": Bait(name="Stick", shape=STICK),
        "mold": Mold(name="Stick mold", bait="bait", cavities=3, feed_ml=3.0, mass_g=900),
        "plastic": Plastic(name="Medium", flash_point_c=210),
        "injector": Injector(name="Small", volume_ml=120, bore_mm=38),
    }
    with made.bench() as bench:
        for key, noun in (usual | nouns).items():
            bench.records.save(noun.key, key, noun, expected_version=0)
        bench.commit()
    return made


@pytest.fixture
def world() -> World:
    return world_of()


def seen(world: World, entry: MoldEntry = PUSH, mold: str = "mold") -> MoldSeen:
    with world.bench() as bench:
        return see_mold(bench, mold_case(bench, mold), entry)


def odds(world: World, entry: MoldEntry = PUSH) -> float:
    with world.bench() as bench:
        asked = odds_asked(push_case(bench, mold_case(bench, "mold"), entry, None))
    return full_odds(asked).typical


def test_the_way_through_a_mold_holds_what_feed_and_baits_hold():
    """Cylinders hold pi/4 d² L; the bait's volume is that of its solid, by a mesh library."""
    cavity = cavity_of(BodyInput(family=STICK))
    feed = sizes(
        MoldFeed(
            sprue_mm=8, sprue_length_mm=40, runner_mm=6, gate_width_mm=4, gate_thick_mm=4,
            pitch_mm=20,
        ),
        bait_width_mm=cavity.width_mm,
    )  # fmt: skip
    way = way_of(cavity, feed, 3)
    by_hand = math.pi / 4 * (8**2 * 40 + 6**2 * 2 * 20 + 4**2 * 4 * 3) / 1000
    assert volume_ml(s for s in way if s.part is not Part.CAVITY) == pytest.approx(by_hand)
    baits = 3 * STICK.solid().volume() / 1000
    assert volume_ml(s for s in way if s.part is Part.CAVITY) == pytest.approx(baits, rel=1e-6)
    assert [s.part for s in feed.slices(1)] == [Part.SPRUE, Part.GATE]


def test_a_feed_nobody_measured_has_a_gate_that_is_no_thicker_than_wide():
    thin, thick = MoldFeed(gate_width_mm=2), MoldFeed(gate_thick_mm=9)
    assert sizes(thin, bait_width_mm=10).gate_thick_mm == 2
    assert sizes(thick, bait_width_mm=10).gate_width_mm == 9
    with pytest.raises(BadInput, match="gate's width"):
        MoldFeed(gate_width_mm=3, gate_thick_mm=4)


def test_dead_ends_that_are_alike_are_judged_once_and_the_thin_ones_first():
    branches = cavity_of(BodyInput(family=Craw())).branches
    assert 1 < len(branches) <= MOST_BRANCHES
    hard = [b.least_thick_mm**2 / b.length_mm for b in branches]
    assert hard == sorted(hard)
    ways = [(round(b.path_mm), round(b.length_mm)) for b in branches]
    assert len(set(ways)) == len(ways)
    # The claws are 5 mm thick by their own measure, and leave thicker than they end.
    assert max(b.thickest_mm for b in branches) == pytest.approx(Craw().claw_thick_mm, abs=2)
    assert all(b.thickest_mm >= b.least_thick_mm for b in branches)


def test_hotter_plastic_and_two_hands_fill_better_and_a_thin_gate_worse(world):
    cool = odds(world, dataclasses.replace(PUSH, melt_c=150))
    assert cool < odds(world, dataclasses.replace(PUSH, melt_c=170))
    assert cool < odds(world, dataclasses.replace(PUSH, melt_c=150, push_n=250))
    gated = world_of(
        mold=Mold(
            name="Thin gates", bait="bait", cavities=3,
            feed=MoldFeed(gate_width_mm=1.5, gate_thick_mm=1.5),
        )
    )  # fmt: skip
    assert odds(gated, dataclasses.replace(PUSH, melt_c=160)) < 0.1


def test_the_odds_alone_are_those_of_the_whole_answer(world):
    told = seen(world).odds
    assert told is not None
    assert told.answer is not None
    assert told.answer.odds == full_odds(told.inputs)
    assert told.answer.odds.typical == odds(world)


def test_a_weighed_feed_and_the_stored_mold_reach_the_count(world):
    told = seen(world).count
    assert told is not None
    assert told.answer is not None
    now = next(r for r in told.answer.rows if r.cavities == 3)
    assert now.feed_ml == pytest.approx(3.0)
    assert now.odds.typical == odds(world)


def test_help_never_heats_over_the_limit(world):
    """The flash point of 210 °C less the house's margin, or 200 °C, whichever is lower."""
    told = seen(world, dataclasses.replace(PUSH, melt_c=185, push_n=40)).odds
    assert told is not None
    assert told.answer is not None
    hotter = [h for h in told.answer.helps if h.change == "hotter plastic"]
    # The cup is ten kelvin hotter than the push.
    assert ["190 °C" in h.how for h in hotter] == [True]
    assert told.inputs.flash_point_c == 210


def test_two_hands_press_harder_on_the_clamps(world):
    """Fewer than twice one hand, more than one: estimates of the push itself."""
    entry = dataclasses.replace(PUSH, push_n=None)
    one = seen(world, entry).clamp
    two = seen(world, dataclasses.replace(entry, push=Push.TWO_HANDS)).clamp
    assert one is not None
    assert two is not None
    assert one.answer is not None
    assert two.answer is not None
    ratio = two.answer.needed_n.typical / one.answer.needed_n.typical
    assert 1.3 < ratio < 2
    # Nobody knows either push exactly.
    assert two.answer.needed_n.half_width > 0.25 * two.answer.needed_n.typical
    assert any("push_n was left out: typical 200 N" in n for n in two.answer.notes)
    assert not any("typical 110 N" in n for n in two.answer.notes)


def test_the_odds_of_a_day_begin_cold_and_end_warm(world):
    told = seen(world, dataclasses.replace(PUSH, melt_c=155))
    first, last = told.warming
    assert (first.shot, first.mold_c) == (1, 22.0)
    assert last.mold_c > first.mold_c + 5
    assert last.odds.typical >= first.odds.typical


def test_molds_of_one_load_are_told_one_by_one(world):
    entry = dataclasses.replace(PUSH, molds=3, pause_s=20)
    told = seen(world, entry).load
    assert told is not None
    assert told.answer is not None
    assert [m.since_s for m in told.answer.molds] == [0, 20, 40]
    temps = [m.melt_c.typical for m in told.answer.molds]
    assert temps[0] == pytest.approx(165, abs=0.5)
    assert temps == sorted(temps, reverse=True)


def test_a_hand_pour_has_no_load_and_no_clamps(world):
    """A closed aluminum mold poured by hand stays short: common practice, no source."""
    poured = MoldEntry(plastic="plastic", push=Push.POUR, melt_c=170, mold_c=25, molds=2)
    told = seen(world, poured)
    assert told.load is None
    assert told.clamp is None
    assert told.odds is not None
    assert told.odds.answer is not None
    assert told.odds.answer.odds.typical < 0.1


def test_the_halves_are_pressed_apart_by_the_push_over_the_shadow():
    """Pascal: 110 N on a bore of 38 mm press 96.99 kPa; times the shadow of baits and feed."""
    clamps = (ClampRow(sort=Bolt(count=4)), ClampRow(sort=Bar(count=2)))
    world = world_of(mold=Mold(name="Held", bait="bait", cavities=3, clamps=clamps))
    told = seen(world).clamp
    assert told is not None
    assert told.answer is not None
    with world.bench() as bench:
        case = mold_case(bench, "mold")
    baits = 3 * STICK.solid().project().area() / 100
    feed = feed_of(case.known, case.mold.feed)
    lying = (8 * 40 + 6 * 2 * feed.pitch_mm + 4 * 4 * 3) / 100
    assert shadow_cm2(case) == pytest.approx(baits + lying, rel=0.04)
    pressure_pa = 110 / (math.pi * 0.038**2 / 4)
    assert told.answer.needed_n.typical == pytest.approx(
        pressure_pa * told.inputs.shadow_cm2 / 1e4, rel=1e-6
    )
    assert told.answer.had_n.typical > 4 * 400
    assert told.inputs.shadow_cm2 == pytest.approx(shadow_cm2(case))


CYLINDER = (SlicePart(length_mm=100, width_mm=10, thick_mm=10),)


def counted(**more):
    asked: dict[str, Any] = {
        "cavity": CYLINDER, "cavities": 3, "bore_mm": 38, "mold_c": 30, "push_n": 110,
    }  # fmt: skip
    return mold_cavities(CavityCountInput(**(asked | more)))


def test_one_more_cavity_adds_its_gate_and_a_piece_of_runner():
    """Cylinders: a bait of 7.854 mL, a gate of 4 x 4 mm and one pitch of a 6 mm runner."""
    feed = MoldFeed(runner_mm=6, gate_width_mm=4, gate_thick_mm=4, pitch_mm=20)
    fewer, now, more = counted(feed=feed, feed_ml=5.0).rows
    step = math.pi / 4 * (6**2 * 20 + 4**2 * 4) / 1000
    assert now.feed_ml == pytest.approx(5.0)
    assert more.feed_ml - now.feed_ml == pytest.approx(step)
    assert now.feed_ml - fewer.feed_ml == pytest.approx(step)
    assert now.shot_ml == pytest.approx(5 + 3 * math.pi / 4 * 10, rel=1e-9)
    assert more.feed_share == pytest.approx(more.feed_ml / more.shot_ml)
    assert fewer.feed_share > now.feed_share > more.feed_share
    assert [r.shots for r in (fewer, now, more)] == sorted(
        (r.shots for r in (fewer, now, more)), reverse=True
    )


def test_a_shot_too_large_for_the_injector_says_so():
    told = counted(injector_ml=30)
    assert told.rows[-1].shots is None
    assert "injector" in told.rows[-1].why
    assert told.advice.startswith("One more does not go")


def test_a_weak_push_makes_one_more_no_gain_and_the_row_is_the_first_of_one():
    weak = counted(push_n=20, melt_c=150)
    assert "no gain" in weak.advice
    assert weak.rows[0].odds.typical >= weak.rows[2].odds.typical
    assert [r.cavities for r in counted(cavities=1).rows] == [1, 2]
    branched = (SlicePart(length_mm=100, width_mm=10, thick_mm=10, copies=8),)
    with pytest.raises(BadInput, match="25 at most"):
        counted(cavities=26, cavity=branched)


def test_one_more_that_saves_no_shot_does_not_pay():
    told = counted(count=1, melt_c=185)
    assert told.rows[1].shots == told.rows[2].shots
    assert "saves no shot" in told.advice


def test_a_timed_shot_narrows_the_plastic_and_undo_takes_it_back(world):
    with pytest.raises(BadInput, match="stopwatch"):
        keep_timed_shot(world, "mold", PUSH)
    kept = keep_timed_shot(world, "mold", dataclasses.replace(PUSH, fill_s=1.2))
    with world.bench() as bench:
        told = believed(bench, "plastic")
    assert told.melt_pa_s is not None
    assert told.factor_now < told.factor_before
    assert told.melt_pa_s.high / told.melt_pa_s.low < 6.0 / 0.7
    now = seen(world, dataclasses.replace(PUSH, melt_c=150))
    assert now.untimed is not None
    assert now.odds is not None
    assert now.odds.answer is not None
    assert now.odds.inputs.melt_pa_s == told.melt_pa_s
    assert now.untimed.typical == odds(world, dataclasses.replace(PUSH, melt_c=150))
    assert now.untimed.typical != now.odds.answer.odds.typical
    with pytest.raises(Conflict):
        undo_timed_shot(world, kept.id, expected_version=7)
    undo_timed_shot(world, kept.id, expected_version=kept.version)
    with world.bench() as bench:
        assert believed(bench, "plastic").melt_pa_s is None
    assert seen(world).untimed is None


def test_a_slower_shot_tells_of_stiffer_plastic_and_more_shots_narrow_further():
    def after(*times: float) -> tuple[float, float]:
        here = world_of()
        for time in times:
            keep_timed_shot(here, "mold", dataclasses.replace(PUSH, fill_s=time))
        with here.bench() as bench:
            told = believed(bench, "plastic")
        assert told.melt_pa_s is not None
        return told.melt_pa_s.typical, told.factor_now

    quick, slow, three = after(1.0), after(4.0), after(4.0, 4.2, 3.9)
    assert quick[0] < slow[0]
    assert three[1] < slow[1]


def test_shots_of_another_day_are_read_on_what_the_first_day_told():
    here, factors = world_of(), []
    for mold_c in (30, 40):
        keep_timed_shot(here, "mold", dataclasses.replace(PUSH, fill_s=4.0, mold_c=mold_c))
        with here.bench() as bench:
            factors.append(believed(bench, "plastic").factor_now)
    assert factors[1] < 0.97 * factors[0]


def test_a_timed_shot_no_plastic_could_give_is_refused_and_not_kept(world):
    entry = dataclasses.replace(PUSH, fill_s=55, push_n=400, melt_c=200)
    with pytest.raises(NoAnswer, match="no viscosity"):
        keep_timed_shot(world, "mold", entry)
    with pytest.raises(BadInput, match="pick the plastic"):
        keep_timed_shot(world, "mold", dataclasses.replace(PUSH, plastic="", fill_s=1.2))
    with world.bench() as bench:
        assert believed(bench, "plastic").shots == ()


def test_a_bait_known_by_weight_tells_what_it_can():
    world = world_of(bait=Bait(name="Weighed", mass_g=9.0, thickest_mm=9.0))
    told = seen(world)
    assert (told.odds, told.clamp, told.count, told.load) == (None, None, None, None)
    assert told.hold is not None
    assert told.cure is not None
    assert any("by weight only" in words for words in told.missing)
    with world.bench() as bench, pytest.raises(NotFound, match="no shape yet"):
        mold_case(bench, "mold").fields()


def test_an_open_mold_is_poured_from_above():
    open_mold = Mold(
        name="Open", bait="bait", cavities=3, open_face=True, material=MoldMaterial.SILICONE
    )
    world = world_of(mold=open_mold)
    with world.bench() as bench:
        entry = first_entry(bench, open_mold)
    assert entry.push is Push.POUR
    told = seen(world, entry)
    assert (told.odds, told.hold, told.clamp) == (None, None, None)
    assert told.cure is not None
    assert any("from above" in words for words in told.missing)


def test_a_push_that_cannot_be_is_refused():
    with pytest.raises(BadInput, match="lever or ram"):
        MoldEntry(push=Push.RAM)
    with pytest.raises(BadInput, match="hand pour"):
        MoldEntry(push=Push.POUR, push_n=50)
    with pytest.raises(BadInput, match="below the plastic"):
        MoldEntry(melt_c=105, mold_c=110)


def test_a_plan_says_when_its_mold_hardly_fills():
    world = world_of()
    draft = Draft(
        mold="mold", count=12, cup_ml=473, plastic="plastic", injector="injector", mold_c=25
    )
    with world.bench() as bench:
        hot = plan_batch(bench, dataclasses.replace(draft, target_c=180))
        cool = plan_batch(bench, dataclasses.replace(draft, target_c=150))
        by_hand = plan_batch(bench, dataclasses.replace(draft, by_hand=True))
        typed = plan_batch(bench, dataclasses.replace(draft, cavities=2))
    assert hot.fills is not None
    assert cool.fills is not None
    assert cool.fills.odds.typical < 0.8 < hot.fills.odds.typical
    assert not any("fill this mold" in w.text for w in hot.plan.warnings)
    told = [w for w in cool.plan.warnings if "fill this mold" in w.text]
    assert [w.level for w in told] == ["risk"]
    assert f"{cool.fills.odds.typical:.0%}" in told[0].text
    assert cool.fills.entry.melt_c == 140
    assert by_hand.fills is None
    assert typed.fills is None
