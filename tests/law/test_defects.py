"""What every defect of the guide promises, and no cure ever breaks: the hot limit."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pourwright.actions.catalog import CATALOG
from pourwright.base.band import Band
from pourwright.plan.defect.judge import JUDGES
from pourwright.plan.defect.known import DEFECTS
from pourwright.plan.defect.room import Room, cure_words
from pourwright.plan.defect.trial import CALCULATIONS, Trial

CURES = list(dict.fromkeys(cure for d in DEFECTS for c in d.causes for cure in c.cures))
CELSIUS = re.compile(r"(\d+) °C / (\d+) °F at most")


def test_the_guide_knows_what_makers_see():
    keys = [d.key for d in DEFECTS]
    assert len(set(keys)) == len(keys) >= 17
    assert len({d.sees for d in DEFECTS}) == len(keys)


@pytest.mark.parametrize("defect", DEFECTS, ids=lambda d: d.key)
def test_every_defect_asks_and_every_answer_speaks_of_its_own_causes(defect):
    causes = [c.key for c in defect.causes]
    assert len(set(causes)) == len(causes) >= 2
    assert 1 <= len(defect.asks) <= 2
    for ask in defect.asks:
        assert len(ask.options) >= 2
        for option in ask.options:
            assert {*option.points_to, *option.against} <= set(causes)
            assert not set(option.points_to) & set(option.against)
        assert any(o.points_to or o.against or o.tells for o in ask.options)


@pytest.mark.parametrize("defect", DEFECTS, ids=lambda d: d.key)
def test_every_cause_has_a_test_or_says_why_there_is_none(defect):
    for cause in defect.causes:
        assert (cause.trial is None) == bool(cause.no_number)
        assert cause.cures
    tested = [c for c in defect.causes if c.trial]
    assert tested or all("number" in c.no_number for c in defect.causes)


def test_every_test_has_its_calculation_and_its_judge():
    assert set(CALCULATIONS) == set(JUDGES) == set(Trial)
    assert set(CALCULATIONS.values()) <= set(CATALOG)
    assert {c.trial for d in DEFECTS for c in d.causes if c.trial} == set(Trial)


# Rule of the house: 200 °C or ten kelvin under the flash point, 180 °C without a data sheet; a
# quarter of the heat budget is where plastic is to be used up rather than heated further.
@given(
    melt_c=st.floats(140, 220),
    flash_c=st.none() | st.floats(150, 350),
    dose=st.floats(0, 3),
    yellowed=st.booleans(),
)
def test_no_cure_is_hotter_than_limit_and_budget_allow(melt_c, flash_c, dose, yellowed):
    limit_c = 180.0 if flash_c is None else min(200.0, flash_c - 10)
    room = Room(melt_c, flash_c, Band(dose / 2, dose, 2 * dose), yellowed)
    for cure in CURES:
        words = cure_words(cure, room)
        for celsius, fahrenheit in CELSIUS.findall(words):
            assert melt_c < float(celsius) <= min(limit_c, melt_c + 5)
            assert float(fahrenheit) == pytest.approx(float(celsius) * 1.8 + 32, abs=0.51)
            assert not yellowed
            assert dose < 0.25
        if cure.hotter and not CELSIUS.search(words):
            assert words.startswith("No room to heat it: ")
            assert words.endswith(cure.instead)
        if cure.reheats and (yellowed or dose >= 0.5):
            assert cure.words not in words


@given(melt_c=st.floats(140, 183))
def test_there_is_room_where_there_is_room(melt_c):
    words = [cure_words(c, Room(melt_c, 230.0, Band(0, 0.1, 0.2))) for c in CURES if c.hotter]
    assert words
    assert all(CELSIUS.search(w) for w in words)


@pytest.mark.parametrize("cure", CURES, ids=lambda c: c.words[:30])
def test_only_a_cure_that_is_held_to_the_limit_asks_for_heat(cure):
    for words in (cure.instead, "" if cure.hotter or cure.reheats else cure.words):
        assert not re.search(r"(?<!no )\bhotter\b|\brewarm", words, re.IGNORECASE)
        assert not re.search(r"(?<!never )\breheat", words)
        assert "°C" not in words
    if "vacuum" in cure.words.lower():
        assert "rated" in cure.words
        assert "raw" in cure.words
    if cure.hotter or cure.reheats:
        assert cure.instead


def test_what_can_hurt_stands_beside_every_hot_defect():
    for defect in DEFECTS:
        if any(c.trial for c in defect.causes):
            assert "ocal codes" in defect.caution
    foam = next(d for d in DEFECTS if d.key == "foam")
    assert "steam" in foam.caution
    yellow = next(d for d in DEFECTS if d.key == "yellow")
    assert "hydrogen chloride" in yellow.caution
