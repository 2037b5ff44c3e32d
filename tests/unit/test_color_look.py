"""What the color page must not get wrong: the light of a target, the cup, lots read otherwise."""

from __future__ import annotations

import dataclasses

import pytest

from pourwright.actions.color_look import Trial, moved, try_color
from pourwright.actions.drift import lot_colors
from pourwright.actions.meet_target import correct_cup
from pourwright.base.errors import NoAnswer
from pourwright.color.calibrate.entry import CardRead, Read, Source
from pourwright.color.correct.question import Drip
from pourwright.color.lab import Lab
from pourwright.color.slab import Placing
from pourwright.shop.look import Dose, Measure
from pourwright.shop.material import Colorant
from pourwright.shop.puck import OverCard, Puck
from pourwright.spectrum.light import Light
from ready_store import demo_bench

MOSS = Dose(material="demo-color-moss", per_100g=6)
GREEN = Lab(lightness=52, a=-24, b=40)
WHITE = Read(lab=Lab(lightness=95, a=0, b=0))
DRIP = Drip(readings=(CardRead(over=WHITE, read=Read(lab=Lab(lightness=70, a=-22, b=36))),))


@pytest.fixture
def world(tmp_path):
    return demo_bench(tmp_path)


@pytest.fixture
def bench(world):
    with world.bench() as opened:
        yield opened


def lot(code: str, day: str, *readings: tuple[str, float], **more) -> Puck:
    return Puck(
        name=code,
        lot=code,
        look="look",
        source=Source.LOT,
        read_on=day,
        readings=tuple(
            OverCard(card=card, read=Read(lab=Lab(lightness=light, a=0, b=0)))
            for card, light in readings
        ),
        **more,
    )


def keep(bench, *pucks: Puck) -> None:
    for puck in pucks:
        bench.records.save(Puck.key, puck.name, puck, expected_version=0)


@pytest.mark.parametrize("light", Light)
def test_a_target_that_the_recipe_is_stays_met_in_every_light(bench, light):
    """A daylight L*a*b* set against L*a*b* under a lamp would call it another color."""
    trial = Trial(doses=(MOSS,))
    mine = dataclasses.replace(trial, target=try_color(bench, trial).lab)
    off = try_color(bench, dataclasses.replace(mine, light=light)).delta_e00
    assert off is not None
    assert off < 2


def test_a_target_under_a_lamp_says_that_its_spectrum_is_a_stand_in(bench):
    shown = try_color(bench, Trial(doses=(MOSS,), target=GREEN, light=Light.A))
    assert any("stand-in" in words for words in shown.notes)


def test_a_bottle_counted_twice_is_in_the_cup_once(world):
    """Three drops and three more are six drops."""
    half = dataclasses.replace(MOSS, per_100g=3)
    once, twice = (
        correct_cup(world, Trial(doses=doses, target=GREEN), DRIP)
        for doses in ((MOSS,), (half, half))
    )
    assert twice.now.typical == pytest.approx(once.now.typical, abs=0.05)
    assert twice.surprise == pytest.approx(once.surprise, abs=0.05)


def test_a_cup_that_glows_is_refused_by_name(world):
    glow = Colorant(name="Firefly", color_hex="#40ff40", glows=True)
    with world.bench() as bench:
        bench.records.save(Colorant.key, "glow", glow, expected_version=0)
        bench.commit()
    doses = (MOSS, Dose(material="glow", per_100g=4, measure=Measure.DROPS))
    with pytest.raises(NoAnswer, match="Firefly"):
        correct_cup(world, Trial(doses=doses, target=GREEN), DRIP)


def test_lots_are_set_against_the_first_over_its_own_card(bench):
    """From L* 60 over white; read over black first it is darker, and that is no drift."""
    keep(
        bench,
        lot("A", "2026-01-01", ("white", 60)),
        lot("B", "2026-02-01", ("black", 30), ("white", 60)),
        lot("C", "2026-03-01", ("black", 30)),
        lot("D", "2026-04-01", ("white", 30), thick_mm=20),
        lot("E", "2026-05-01", ("white", 30), placing=Placing.AIR_GAP),
    )
    assert [(x.lot, x.delta_e00) for x in lot_colors(bench, "look")] == [("A", 0), ("B", 0)]


def test_a_day_that_is_none_is_left_out(bench):
    keep(bench, lot("A", "2026-13-41", ("white", 60)), lot("B", "2026-02-01", ("white", 50)))
    keep(bench, lot("unread", "2026-01-01"))
    assert [x.lot for x in lot_colors(bench, "look")] == ["B"]


def test_a_fatter_bait_is_shown_beside_the_thickness_chosen(bench):
    """Deeper plastic swallows more light: the same recipe looks darker in a thicker bait."""
    trial = Trial(doses=(MOSS,), thick_mm=3)
    for shift in moved(bench, trial):
        assert shift.thick_mm > 3
        assert shift.warns
        assert sum(_rgb(shift.color_hex)) < sum(_rgb(shift.home_hex))


def _rgb(text: str) -> tuple[int, ...]:
    return tuple(bytes.fromhex(text[1:]))
