"""The shelf learns from its stored pucks: what teaches, what is left out, what is kept."""

from __future__ import annotations

import dataclasses

import pytest

from pourwright import wire
from pourwright.actions.calibrate_shelf import LESSON, calibrate_shelf, last_lesson
from pourwright.actions.enter_reading import Reading, read_puck
from pourwright.actions.puck_input import gathered, seen_now
from pourwright.actions.puck_wants import CHECK, pour_puck, wanted
from pourwright.actions.shelf_color import calibrations
from pourwright.base.errors import BadInput, NoAnswer, NotFound
from pourwright.color.calibrate.answer import calibrate
from pourwright.color.calibrate.entry import Use
from pourwright.color.fit.reading import Instrument
from pourwright.color.lab import Lab
from pourwright.color.slab import Placing
from pourwright.shop.look import Dose
from pourwright.shop.material import Colorant, Scent
from pourwright.shop.puck import Puck
from ready_store import demo_bench

MOSS, ROSE = "demo-color-moss", "demo-color-rose"
WHITE, BLACK = "demo-card-white", "demo-card-black"


@pytest.fixture
def demo(tmp_path):
    return demo_bench(tmp_path)


def change(world, key, **more):
    with world.bench() as bench:
        stored = bench.records.get(Puck.key, key)
        noun = dataclasses.replace(stored.noun, **more)
        bench.records.save(Puck.key, key, noun, expected_version=stored.version)
        bench.commit()


def put(world, key, noun):
    with world.bench() as bench:
        bench.records.save(noun.key, key, noun, expected_version=0)
        bench.commit()


def keep_only(world, *keys):
    with world.bench() as bench:
        for stored in bench.records.all(Puck.key):
            if stored.id not in keys:
                bench.records.retire(Puck.key, stored.id, expected_version=stored.version)
        bench.commit()


def test_a_lesson_is_kept_and_grows_stale_with_its_pucks(demo):
    calibrate_shelf(demo)
    with demo.bench() as bench:
        lesson = last_lesson(bench)
        assert lesson is not None
        assert set(lesson.seen) == set(seen_now(bench))
        assert lesson.next_puck
    change(demo, "demo-puck-3", thick_mm=6, wide_mm=40)
    with demo.bench() as bench:
        assert set(lesson.seen) != set(seen_now(bench))


def test_swapped_pucks_are_doubted_by_name(demo):
    """Two readings exchanged on purpose: the truth is in the swap."""
    with demo.bench() as bench:
        moss, bog = (bench.records.get(Puck.key, f"demo-puck-{n}").noun for n in (4, 7))
    change(demo, "demo-puck-4", readings=bog.readings)
    change(demo, "demo-puck-7", readings=moss.readings)
    calibrate_shelf(demo)
    with demo.bench() as bench:
        lesson = last_lesson(bench)
    assert lesson is not None
    doubted = {d.puck for d in lesson.doubted}
    assert doubted & {"demo-puck-4", "demo-puck-7"}


def test_drips_and_lots_teach_without_any_puck(demo):
    keep_only(demo, *(f"demo-lot-{c}" for c in ("26H14A", "26I20A", "26J25A")))
    calibrate_shelf(demo)
    with demo.bench() as bench:
        assert MOSS in calibrations(bench)


def test_what_only_a_check_puck_holds_stays_uncalibrated(demo):
    with demo.bench() as bench:
        readings = bench.records.get(Puck.key, "demo-puck-check").noun.readings
    doses = (Dose(material=MOSS, per_100g=5), Dose(material=ROSE, per_100g=1))
    put(demo, "mixed", Puck(name="Mixed", doses=doses, use=Use.CHECK, readings=readings))
    calibrate_shelf(demo)
    with demo.bench() as bench:
        assert ROSE not in calibrations(bench)


def test_a_belief_whose_pucks_are_gone_is_taken_off_and_comes_back(demo):
    calibrate_shelf(demo)
    keep_only(demo, "demo-puck-1", "demo-puck-6", "demo-puck-7")
    calibrate_shelf(demo)
    with demo.bench() as bench:
        assert MOSS not in calibrations(bench)
        assert "demo-color-brown" in calibrations(bench)
        moss = bench.records.get(Puck.key, "demo-puck-4")
        bench.records.save(Puck.key, moss.id, moss.noun, expected_version=moss.version)
        bench.commit()
    calibrate_shelf(demo)
    with demo.bench() as bench:
        assert MOSS in calibrations(bench)


def test_pucks_that_glow_or_glitter_are_left_out_in_words(demo):
    with demo.bench() as bench:
        readings = bench.records.get(Puck.key, "demo-puck-3").noun.readings
        flake = bench.records.all("flake")[0].id
    put(demo, "glow", Colorant(name="Glow", color_hex="#40ff40", glows=True))
    for key, material in (("p-glow", "glow"), ("p-flake", flake)):
        doses = (Dose(material=material, per_100g=1),)
        put(demo, key, Puck(name=key, doses=doses, readings=readings))
    with demo.bench() as bench:
        question = gathered(bench)
    why = {r.puck: r.why for r in question.left_out}
    assert "fluorescent" in why["p-glow"]
    assert "flake" in why["p-flake"]
    assert not {"glow", flake} & set(question.materials)


def test_scent_in_a_puck_is_no_colorant(demo):
    put(demo, "garlic", Scent(name="Garlic"))
    with demo.bench() as bench:
        doses = bench.records.get(Puck.key, "demo-puck-3").noun.doses
    change(demo, "demo-puck-3", doses=(*doses, Dose(material="garlic", per_100g=1)))
    with demo.bench() as bench:
        assert "garlic" not in gathered(bench).materials


def test_the_store_is_free_while_the_fit_runs(demo, monkeypatch):
    opened = []

    def watched(inputs):
        with demo.bench() as bench:  # waits five seconds and fails if the store is held
            opened.append(len(bench.records.all(Puck.key)))
        return calibrate(inputs)

    monkeypatch.setattr("pourwright.actions.calibrate_shelf.calibrate", watched)
    calibrate_shelf(demo)
    assert opened


def test_the_lesson_can_be_learned_again(demo):
    calibrate_shelf(demo)
    calibrate_shelf(demo)
    with demo.bench() as bench:
        assert bench.records.get("lesson", LESSON).version == 2


def test_an_empty_shelf_wants_nothing_and_teaches_nothing(tmp_path):
    world = wire.world(tmp_path / "bench.db")
    with world.bench() as bench:
        assert wanted(bench) == ()
    with pytest.raises(NoAnswer, match="no puck teaches"):
        calibrate_shelf(world)


def test_wanted_pucks_fit_what_there_is(demo):
    with demo.bench() as bench:
        rows = {r.material: r for r in wanted(bench)}
    assert [w.cards for w in rows[MOSS].wants] == [2, 2, 2]
    assert [w.missing for w in rows["demo-color-brown"].wants] == [False, False, True]
    # White is its own white: two pucks, none of them mixed with itself.
    assert [w.key for w in rows["demo-color-white"].wants] == ["low", "high"]
    assert not rows[CHECK].wants[0].missing


def test_a_wanted_puck_is_written_down_then_read(demo):
    stored = pour_puck(demo, ROSE, "low")
    assert isinstance(stored.noun, Puck)
    assert stored.noun.doses == (Dose(material=ROSE, per_100g=2),)
    meter = Reading(
        lab=Lab(lightness=60, a=40, b=5), instrument=Instrument.METER, placing=Placing.CONTACT
    )
    read_puck(demo, stored.id, WHITE, meter)
    with demo.bench() as bench:
        low = {r.material: r for r in wanted(bench)}[ROSE].wants[0]
    assert (low.missing, low.unread, low.cards) == (False, True, 1)
    for changed in ({"instrument": Instrument.PHOTO}, {"placing": Placing.AIR_GAP}):
        with pytest.raises(BadInput, match="when Dawn rose, 2 drops was read before"):
            read_puck(demo, stored.id, BLACK, dataclasses.replace(meter, **changed))
    with pytest.raises(NotFound):
        pour_puck(demo, ROSE, "plain")


@pytest.mark.parametrize(
    ("more", "why"),
    [
        ({"placing": Placing.WATER}, "contact or air gap"),
        ({"doses": (Dose(material="a", per_100g=1),) * 2}, "names a material twice"),
        ({"wide_mm": 29.0}, "six thicknesses, 30 mm"),
    ],
)
def test_a_puck_that_cannot_be_learned_from_is_refused(more, why):
    with pytest.raises(BadInput, match=why):
        Puck(name="x", thick_mm=5, **more)
