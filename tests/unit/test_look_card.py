"""A color card says what its look, its version or its lot was, whatever was changed since."""

from __future__ import annotations

import dataclasses

import pytest

from pourwright.actions import as_it_was
from pourwright.actions.as_it_was import Past, look_of_lot, poured_bait
from pourwright.actions.demo import DEMO_DRAFT
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.keep_record import Change
from pourwright.actions.make_look_card import card_of_look, card_of_lot, finished
from pourwright.base.errors import BadInput, NoAnswer, NotFound
from pourwright.color.kinds.dye import Dye
from pourwright.forecast.request import Sort
from pourwright.shop.look import Dose, Look, LookLayer
from pourwright.shop.material import Colorant
from pourwright.shop.mold import Bait, Mold

NOW = "2026-11-27T08:00:00Z"
MARSH, WORM, MOSS = "demo-look-marsh", "demo-bait-worm", "demo-color-moss"


def change(world, sort, key, **more):
    with world.bench() as bench:
        stored = bench.records.get(sort, key)
        noun = dataclasses.replace(stored.noun, **more)
        bench.records.save(sort, key, noun, expected_version=stored.version)
        bench.commit()


@pytest.fixture
def sheet(world, clock):
    """A sheet from before any record was changed."""
    clock.at = "2001-01-01T00:00:00Z"
    return freeze_sheet(world, DEMO_DRAFT)


@pytest.fixture
def poured(world, sheet):
    """A lot, after which its look, its bait, its color and its mold were all changed."""
    plain = (LookLayer(doses=(Dose(material=MOSS, per_100g=20),)),)
    change(world, Look.key, MARSH, layers=plain, name="Later")
    change(world, Bait.key, WORM, shape=None, mass_g=3.0)
    change(world, Colorant.key, MOSS, color_hex="#ff00ff")
    change(world, Mold.key, "demo-mold-worm", bait="demo-bait-paddle")
    return sheet


def lot_card(world, sheet):
    with world.reading() as bench:
        return card_of_lot(bench, MARSH, sheet.number, now=NOW).card


def test_the_card_of_a_lot_stays_as_it_was_poured(world, sheet):
    before = lot_card(world, sheet)
    change(world, Look.key, MARSH, layers=(LookLayer(),), name="Later")
    change(world, Colorant.key, MOSS, color_hex="#ff00ff", drop_mass_g=0.09)
    assert lot_card(world, sheet) == before
    assert before.lot
    assert before.lot.code == sheet.code
    with world.reading() as bench:
        now = card_of_look(bench, MARSH, bait=WORM, version=0, now=NOW).card
    assert (now.name, now.version, now.lot) == ("Later", 2, None)
    assert now.layers[0].doses == ()


def test_the_picture_of_a_lot_stays_as_it_was_poured(world, poured):
    with world.reading() as bench:
        past = Past(bench)
        asked, bait = look_of_lot(past, poured), poured_bait(past, poured)
        stands = bench.records.get(Bait.key, WORM).noun
    assert bait
    assert bait.shape is not None
    assert stands.shape is None
    assert asked.family == bait.shape
    (layer,) = asked.layers
    moss = next(d for d in layer.doses if d.name == "Moss green")
    assert moss.per_100g == 6
    assert isinstance(moss.colorant, Dye)
    assert moss.colorant.color_hex != "#ff00ff"


@pytest.mark.parametrize(
    ("at", "version"),
    [("2026-01-01", 1), ("2026-02-02", 1), ("2026-03-02", 1), ("2026-03-03", 2),
     ("2026-04-04", 2), ("2026-06-06", 3), ("2027-01-01", 3)],
)  # fmt: skip
def test_the_version_that_stood_at_a_time_is_found(world, monkeypatch, at, version):
    days = ("2026-02-02", "2026-03-03", "2026-05-05", "2026-07-07")
    saved = tuple(Change(day, day == "2026-07-07", None, Look(name=day, layers=(LookLayer(),)))
                  for day in days)  # fmt: skip
    monkeypatch.setattr(as_it_was, "history_of", lambda *_: saved)
    with world.reading() as bench:
        found = Past(bench).was(Look.key, MARSH, at)
    assert found
    assert (found.version, found.at) == (version, days[version - 1])


def test_a_record_entered_later_counts_as_it_was_first_entered(world, sheet):
    with world.reading() as bench:
        first = Past(bench).was(Look.key, MARSH, sheet.frozen_at)
        assert first
        assert first.version == 1
        assert Past(bench).was(Look.key, "nowhere", sheet.frozen_at) is None
        assert Past(bench).was(Look.key, "", sheet.frozen_at) is None


def test_a_version_is_found_by_its_number(world):
    change(world, Look.key, MARSH, layers=(LookLayer(),))
    with world.reading() as bench:
        first = card_of_look(bench, MARSH, bait=WORM, version=1, now=NOW).card
        assert len(first.layers[0].doses) == 4
        assert card_of_look(bench, MARSH, bait=WORM, version=2, now=NOW).card.version == 2
        with pytest.raises(NotFound, match="has no version 3"):
            card_of_look(bench, MARSH, bait=WORM, version=3, now=NOW)


def test_grams_of_drops_and_spoons_are_weighed_out(world):
    """What was entered of the materials: 6 drops of 36 mg, 0.06 spoons of 2.8 g."""
    with world.reading() as bench:
        card = card_of_look(bench, MARSH, bait=WORM, version=0, now=NOW).card
    grams = {dose.name: dose.grams.typical for dose in card.layers[0].doses}
    assert grams["Moss green"] == pytest.approx(6 * 0.036)
    assert grams["Copper flake, fine"] == pytest.approx(0.06 * 2.8)
    assert {dose.sort for dose in card.layers[0].doses} <= set(Sort)
    assert card.demo


def test_a_lot_of_another_look_is_refused(world, sheet):
    with world.reading() as bench, pytest.raises(BadInput, match="not poured in this look"):
        card_of_lot(bench, "demo-look-shad", sheet.number, now=NOW)


@pytest.mark.parametrize(("entered", "shown"), [(12.5, (12.5, True)), (70.0, (10.0, False))])
def test_swatches_are_as_thick_as_the_thickest_place(world, entered, shown):
    """Of more than 60 mm there is no forecast; the usual 10 mm stand in, and it is said."""
    change(world, Bait.key, WORM, thickest_mm=entered)
    with world.reading() as bench:
        card = card_of_look(bench, MARSH, bait=WORM, version=0, now=NOW).card
    assert (card.thick_mm, card.thick_known) == shown


def test_a_bait_without_a_shape_has_a_card_without_a_picture(world):
    change(world, Bait.key, WORM, shape=None, mass_g=3.0, thickest_mm=None)
    with world.reading() as bench:
        begun = card_of_look(bench, MARSH, bait=WORM, version=0, now=NOW)
    card = finished(begun)
    assert card.picture is None
    assert "has no shape yet" in card.no_picture
    assert (card.thick_mm, card.thick_known) == (10.0, False)


def test_a_card_can_be_had_of_a_look_without_any_bait(world):
    with world.reading() as bench:
        begun = card_of_look(bench, MARSH, bait="", version=0, now=NOW)
    assert begun.asked is None
    assert (begun.card.bait, begun.card.thick_mm, begun.card.thick_known) == ("", 10.0, False)


def test_a_typed_weight_has_no_picture(world):
    draft = dataclasses.replace(DEMO_DRAFT, mold="", bait_g=8.0, cavities=2)
    sheet = freeze_sheet(world, draft)
    with world.reading() as bench:
        past = Past(bench)
        assert poured_bait(past, sheet) is None
        with pytest.raises(NoAnswer, match="no bait with a shape"):
            look_of_lot(past, sheet)
        begun = card_of_lot(bench, MARSH, sheet.number, now=NOW)
    assert "no bait with a shape" in begun.card.no_picture


def test_a_finished_card_has_the_picture_of_its_look(world, sheet):
    with world.reading() as bench:
        begun = card_of_lot(bench, MARSH, sheet.number, now=NOW)
    picture = finished(begun).picture
    assert picture is not None
    # Moss green over a white card: the middle of a worm is greener than it is red or blue.
    red, green, blue = picture.codes[picture.rows // 2, picture.columns // 3].astype(int)
    assert green > max(red, blue)
