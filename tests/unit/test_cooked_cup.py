"""What earlier cups teach, and when a new water test pays."""

from __future__ import annotations

import math

import numpy as np
import pytest

from pourwright.heat.belief import prior
from pourwright.heat.cooked_cup import CookedCup, belief_after, lessons, why_test_due
from pourwright.heat.history import Did, Instrument, Step
from pourwright.heat.learn import CUP, START, replayed
from pourwright.heat.oven import NAMES

PRIOR = prior(label_w=700, label_spread=0.0, water=[], bias_k=0.0)


def read(c, instrument=Instrument.INFRARED):
    return Step(did=Did.READ, read_c=c, while_stirring=True, instrument=instrument)


def cooked(more=0.0, grams=498.0, on_s=(75, 180, 50)):
    """A cup as the model cooks it, in an oven of so much more power (natural logarithm)."""
    steps: tuple[Step, ...] = ()
    start = CookedCup(plastic_g=grams, start_c=22, ambient_c=22)
    about = dict(zip(NAMES, PRIOR.mean, strict=True)) | {CUP: 0.0, START: 0.0}
    about["ln_power_w"] += more
    values = np.array([[v] for v in about.values()])
    for seconds in on_s:
        steps += (
            Step(did=Did.HEATED, for_s=seconds),
            Step(did=Did.RESTED, for_s=15),
            Step(did=Did.STIRRED),
        )
        blank = (*steps, read(50))
        reads = replayed(tuple(about), values, start.fill(), blank).reads[-1]
        steps += (read(float(reads[0])),)
    return CookedCup(plastic_g=grams, start_c=22, ambient_c=22, history=steps)


@pytest.mark.parametrize("more", [-0.2, 0.2])
def test_the_power_of_the_oven_is_found(more):
    learned = lessons(PRIOR, (cooked(more), cooked(more)))
    true_w = math.exp(PRIOR.mean[0] + more)
    for lesson in learned:
        assert lesson.power_w.typical == pytest.approx(true_w, rel=0.04)
        assert lesson.power_w.low < true_w < lesson.power_w.high
        assert lesson.doubts == ()
        assert abs(lesson.missed_k) < 1.5
    # Each cup starts from what the one before taught, a little less sure.
    first, second = learned
    assert first.before_w.typical == pytest.approx(math.exp(PRIOR.mean[0]))
    assert second.before_w.typical == pytest.approx(math.exp(first.belief.mean[0]))
    assert second.before_w.half_width > math.exp(first.belief.mean[0]) * 1.6 * (
        first.belief.covariance[0][0] ** 0.5
    )
    assert second.before_w.half_width < 0.5 * first.before_w.half_width
    assert belief_after(PRIOR, (cooked(more), cooked(more))) == second.belief


def test_a_band_holds_nine_tenths():
    # 90 % of a normal lie within 1.645 deviations: tables of the normal distribution.
    before = lessons(PRIOR, (cooked(),))[0].before_w
    spread = math.sqrt(PRIOR.covariance[0][0])
    assert math.log(before.high / before.typical) == pytest.approx(1.645 * spread, rel=1e-3)
    assert math.log(before.typical / before.low) == pytest.approx(1.645 * spread, rel=1e-3)


def test_cups_that_were_not_read_or_not_heated_teach_nothing():
    heated = CookedCup(plastic_g=400, history=(Step(did=Did.HEATED, for_s=60),))
    looked_at = CookedCup(plastic_g=400, history=(read(22),))
    assert lessons(PRIOR, (heated, looked_at)) == ()
    assert belief_after(PRIOR, (heated, looked_at)) == PRIOR
    assert len(lessons(PRIOR, (heated, cooked(), looked_at))) == 1


def test_an_unmeasured_start_teaches_less():
    known = cooked()
    guessed = CookedCup(plastic_g=498, history=known.history[:4])
    measured = CookedCup(plastic_g=498, start_c=22, ambient_c=22, history=known.history[:4])
    width = [lessons(PRIOR, (c,))[0].power_w.half_width for c in (guessed, measured)]
    assert width[0] > 1.1 * width[1]


def test_a_new_test_pays_while_little_is_known_or_once_the_oven_changed():
    assert "one part in eight" in (why_test_due(PRIOR, ()) or "")
    usual = lessons(PRIOR, (cooked(), cooked()))
    assert why_test_due(usual[-1].belief, usual) is None
    changed = lessons(PRIOR, (cooked(), cooked(), cooked(-0.2), cooked(-0.4)))
    assert [it.drifted for it in changed] == [False, False, True, True]
    assert "has changed" in (why_test_due(changed[-1].belief, changed) or "")
    assert why_test_due(changed[-1].belief, changed[:-1]) is None
    assert why_test_due(changed[-1].belief, changed[-1:]) is None


def cold_pair(c, instrument=Instrument.INFRARED):
    """A usual cup, then a fourth burst and two readings that agree on what cannot well be."""
    burst = (Step(did=Did.HEATED, for_s=40), Step(did=Did.STIRRED))
    history = (*cooked().history[:-4], *burst, read(c, instrument), read(c + 0.5, instrument))
    return CookedCup(plastic_g=498, start_c=22, ambient_c=22, history=history)


def test_a_slip_that_agrees_with_itself_does_not_weaken_the_oven():
    # Learned as a weak oven, the next cup would be overheated by the first burst.
    once = lessons(PRIOR, (cooked(),))[0].belief.mean[0]
    slip = lessons(PRIOR, (cooked(), cold_pair(76.0)))[1]
    assert slip.belief.mean[0] == pytest.approx(once, abs=0.05)
    probed = lessons(PRIOR, (cooked(), cold_pair(76.0, Instrument.PROBE)))[1]
    assert probed.belief.mean[0] < once - 0.2


def test_another_thermometer_starts_anew():
    gun = NAMES.index("reading_bias_k")
    same = belief_after(PRIOR, (cooked(), cooked()))
    other = belief_after(PRIOR, (cooked(), cooked()), thermometer="another")
    assert other.mean[gun] == PRIOR.mean[gun]
    assert other.covariance[gun][gun] == pytest.approx(PRIOR.covariance[gun][gun])
    assert same.covariance[gun][gun] < PRIOR.covariance[gun][gun]
    # The oven itself is the same.
    assert other.mean[0] == same.mean[0]
    assert other.covariance[0][0] == pytest.approx(same.covariance[0][0])
    assert other.covariance[0][gun] == 0


def test_a_cup_tells_its_own_power_better_than_the_oven_s():
    # Oven and cup pull against each other, so that their sum is known best.
    lesson = lessons(PRIOR, (cooked(),))[0]
    own = math.log(lesson.power_w.high / lesson.power_w.typical) / 1.645
    assert own < 0.8 * math.sqrt(lesson.belief.covariance[0][0])
