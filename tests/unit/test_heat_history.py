"""What was done to a cup: clocks, masses, and the readings that are refused."""

from __future__ import annotations

import pytest

from pourwright.base.errors import BadInput
from pourwright.base.record import from_json
from pourwright.heat.history import Did, Step, left_g, other_unit_c, timed


def heated(at_s=None):
    return Step(did=Did.HEATED, for_s=60, at_s=at_s)


def stirred(at_s=None):
    return Step(did=Did.STIRRED, at_s=at_s)


def rests(steps):
    return [s.for_s for s in timed(steps, 500) if s.did is Did.RESTED]


def test_the_clock_puts_in_the_rests():
    # 60 s of heat from 100 s on end at 160 s, so that 15 s are left until the stir.
    assert rests((heated(100), stirred(175), heated(180))) == [15, 5]
    assert [s.did for s in timed((heated(100), stirred(175)), 500)] == [
        Did.HEATED, Did.RESTED, Did.STIRRED,
    ]  # fmt: skip
    # Steps without a clock go on from the last one with a clock; told rests count once.
    told = Step(did=Did.RESTED, for_s=10)
    assert rests((heated(0), told, stirred(75))) == [10, 5]
    assert rests((heated(), stirred(), heated())) == []


def test_a_second_hand_may_jitter_but_not_run_backwards():
    assert rests((heated(0), stirred(59.6), stirred(60))) == []
    with pytest.raises(BadInput, match="ended at 60 s") as refused:
        timed((heated(0), stirred(59)), 500, "cups[2].history")
    assert refused.value.field == "cups[2].history[1].at_s"


def test_a_gap_of_hours_is_refused():
    assert rests((heated(0), heated(7260))) == [7200]
    with pytest.raises(BadInput, match="more than 7200 s after") as refused:
        timed((heated(0), heated(40_000)), 500)
    assert refused.value.field == "history[1].at_s"


def test_masses_add_up_and_stay_within_bounds():
    steps = (
        Step(did=Did.DRAWN, mass_g=120),
        Step(did=Did.ADDED, mass_g=50),
        Step(did=Did.DRAWN, mass_g=30),
    )
    assert left_g(steps, 500) == 400
    assert left_g((), 500) == 500
    assert len(timed((Step(did=Did.DRAWN, mass_g=490),), 500)) == 1
    with pytest.raises(BadInput, match=r"leave 9 g") as refused:
        timed((Step(did=Did.DRAWN, mass_g=491),), 500)
    assert refused.value.field == "history[0].mass_g"
    more = Step(did=Did.ADDED, mass_g=1500)
    assert len(timed((more,), 1500)) == 1
    with pytest.raises(BadInput, match=r"make 3001 g") as refused:
        timed((heated(), more), 1501)
    assert refused.value.field == "history[1].mass_g"


def test_the_other_unit_both_ways():
    # The scales meet at -40 and boil at 100 °C / 212 °F, by their definition.
    assert other_unit_c(212) == pytest.approx((100, 413.6))
    assert other_unit_c(100) == pytest.approx((37.78, 212), abs=0.01)
    assert other_unit_c(-40) == pytest.approx((-40, -40))


@pytest.mark.parametrize("read_c", [-10, 260])
def test_the_ends_of_the_range_are_readings(read_c):
    assert Step(did=Did.READ, read_c=read_c).read_c == read_c


@pytest.mark.parametrize(
    ("read_c", "hint"), [(261, True), (500, True), (501, False), (-10.5, False)]
)
def test_readings_out_of_range_hint_at_the_unit(read_c, hint):
    with pytest.raises(BadInput, match="must be -10 to 260 °C") as refused:
        Step(did=Did.READ, read_c=read_c)
    assert ("was it read in °F?" in str(refused.value)) is hint


@pytest.mark.parametrize("number", ["for_s", "read_c", "mass_g"])
def test_a_stir_has_no_number(number):
    with pytest.raises(BadInput, match="does not belong to a step that was stirred") as refused:
        from_json(Step, {"did": "stirred", number: 20})
    assert refused.value.field == number
