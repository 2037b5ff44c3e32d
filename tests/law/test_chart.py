"""Laws of charts: too few lots say nothing, chance alone seldom alarms, a drift always does."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pourwright.base.errors import BadInput
from pourwright.shop.chart import odds
from pourwright.shop.chart.count import CountedSample, CountInput, count_chart
from pourwright.shop.chart.mass import ALARM_EVERY, ALARM_EVERY_SINGLE, mass_chart
from pourwright.shop.chart.mass_input import MassInput, Subgroup
from pourwright.shop.chart.share import ShareInput, ShareLot, share_chart
from pourwright.shop.chart.signal import RUN, Side, Sign, runs
from pourwright.shop.chart.standing import LEAST_LOTS, SETTLED_LOTS, Standing

lawful = settings(derandomize=True, deadline=None, max_examples=60)
counts = st.integers(1, 300).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))


def share_lots(pairs, days=None):
    days = days or [""] * len(pairs)
    return tuple(
        ShareLot(lot=f"lot {i}", bad=bad, n=n, day=day)
        for i, ((bad, n), day) in enumerate(zip(pairs, days, strict=True), start=1)
    )


def weighed(rows, **given):
    groups = tuple(Subgroup(lot=f"lot {i}", masses_g=tuple(r)) for i, r in enumerate(rows, 1))
    return mass_chart(MassInput(subgroups=groups, **given))


@lawful
@given(st.lists(counts, min_size=1, max_size=30))
def test_a_chart_of_shares_keeps_its_promises(pairs):
    it = share_chart(ShareInput(lots=share_lots(pairs)))
    limited = len(pairs) >= LEAST_LOTS
    assert it.center_low <= it.center <= it.center_high
    for lot in it.lots:
        assert lot.possible_low <= lot.share <= lot.possible_high
        assert 0 < lot.tail <= 1
        if not limited:
            assert (lot.low, lot.high, lot.fewest, lot.most) == (None,) * 4
        if lot.most is not None:
            assert lot.fewest is None or lot.fewest <= lot.n * it.center <= lot.most + 1
    far = {lot.lot for lot in it.lots if lot.tail < odds.RARE}
    called = {s.lot for s in it.signals if s.sign in {Sign.HIGH, Sign.LOW}}
    assert called == (far if limited else set())


@lawful
@given(st.lists(counts, min_size=2, max_size=30), st.integers(1, 5))
def test_pooling_days_loses_no_bait(pairs, days):
    named = [f"2026-05-{i % days + 1:02d}" for i in range(len(pairs))]
    lots = share_lots(pairs, named)
    pooled = share_chart(ShareInput(lots=lots, pool_days=True))
    single = share_chart(ShareInput(lots=lots))
    assert len(pooled.lots) == min(days, len(pairs))
    assert pooled.center == single.center
    assert sum(it.bad for it in pooled.lots) == sum(it.bad for it in lots)


def test_lots_without_a_day_stay_alone():
    lots = share_lots([(1, 20)] * 3, ["", "2026-05-01", ""])
    assert [it.lot for it in share_chart(ShareInput(lots=lots, pool_days=True)).lots] == [
        "lot 1", "2026-05-01", "lot 3",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("count", "standing", "words"),
    [
        (LEAST_LOTS - 1, Standing.TOO_FEW, "Too few to say: 7 lots, and limits begin at 8."),
        (LEAST_LOTS, Standing.PROVISIONAL, "8 lots: the limits are provisional until there are 25"),
        (SETTLED_LOTS, Standing.SETTLED, "25 lots stand behind the limits"),
    ],
)
def test_how_far_limits_may_be_trusted_is_said(count, standing, words):
    share = share_chart(ShareInput(lots=share_lots([(2, 40)] * count)))
    mass = weighed([[10.0, 10.1 + i % 3 / 100] for i in range(count)])
    flaws = count_chart(
        CountInput(samples=tuple(CountedSample(lot=f"{i}", flaws=4) for i in range(count)))
    )
    for it in (share, mass, flaws):
        assert it.standing is standing
        assert words in it.words
        assert bool(it.signals) is False


def test_one_bad_lot_among_many_is_called_out_and_told():
    it = share_chart(ShareInput(lots=share_lots([(2, 40)] * 11 + [(14, 40)])))
    assert [s.sign for s in it.signals] == [Sign.HIGH]
    assert "lot 12: 14 of 40, where chance alone makes at most" in it.words


def test_few_bad_ones_make_no_run_below_of_eight_quiet_lots():
    """Among few baits most lots lie below the mean: eight of them in a row are no news."""
    pairs = [(0, 20)] * 8 + [(2, 20)] + [(0, 20)] * 8 + [(3, 20)]
    assert not share_chart(ShareInput(lots=share_lots(pairs))).signals


def test_a_long_run_is_called_out_once_at_its_end():
    pairs = [(20, 200), (21, 200)] * 5 + [(30, 200)] * 10
    signals = share_chart(ShareInput(lots=share_lots(pairs))).signals
    assert [(s.place, s.sign) for s in signals] == [(10, Sign.RUN_LOW), (20, Sign.RUN_HIGH)]


@pytest.mark.parametrize("length", [RUN - 1, RUN])
def test_eight_in_a_row_are_a_run_and_seven_are_none(length):
    sides = [Side(-1, 0.5), *[Side(1, 0.5)] * length, Side(-1, 0.5)]
    assert len(runs(sides)) == (length == RUN)


def test_a_lot_on_the_center_breaks_a_run():
    assert not runs([*[Side(1, 0.5)] * 5, Side(0, 1.0), *[Side(1, 0.5)] * 5])


def test_lots_that_differ_by_more_than_chance_are_told():
    uneven = share_lots([(0, 40), (12, 40)] * 8)
    even = share_lots([(5, 40), (7, 40)] * 8)
    told = "differ by more than their counts explain"
    assert any(told in note for note in share_chart(ShareInput(lots=uneven)).notes)
    assert not any(told in note for note in share_chart(ShareInput(lots=even)).notes)


def test_none_bad_at_all_divides_by_nothing():
    it = share_chart(ShareInput(lots=share_lots([(0, 20)] * 9)))
    assert (it.center, it.signals, it.lots[0].tail) == (0.0, (), 1.0)


def test_more_bad_than_counted_is_refused():
    with pytest.raises(BadInput, match="at most the 5 counted"):
        ShareLot(lot="x", bad=6, n=5)


@pytest.mark.parametrize(
    ("size", "every"), [(1, ALARM_EVERY_SINGLE), (5, ALARM_EVERY)]
)  # fmt: skip
def test_chance_alone_alarms_as_seldom_as_is_said(size, every):
    rows = np.random.default_rng(size).normal(100, 1, (2000 * 12, size))
    found = sum(
        len(weighed(part.tolist(), usual_g=100, usual_sigma_g=1).signals)
        for part in np.split(rows, 12)
    )
    assert len(rows) / found == pytest.approx(every, rel=0.12)


def first_of(signals, *signs):
    return min((s.place for s in signals if s.sign in signs), default=1000)


def test_a_creep_is_called_out_sooner_than_a_lot_is_far_out():
    sooner = 0
    for seed in range(20):
        rows = np.random.default_rng(seed).normal(12.04, 0.1, (60, 5))
        signals = weighed(rows.tolist(), usual_g=12, usual_sigma_g=0.1).signals
        sooner += first_of(signals, Sign.DRIFT_UP) < first_of(signals, Sign.HIGH)
    assert sooner >= 15


def test_a_creep_is_told_once_and_again_when_it_returns():
    rows = [[12.1, 12.1]] * 10 + [[11.9, 11.9]] * 20
    signals = weighed(rows, usual_g=12, usual_sigma_g=0.1).signals
    creeps = [s.sign for s in signals if s.sign in {Sign.DRIFT_UP, Sign.DRIFT_DOWN}]
    assert creeps == [Sign.DRIFT_UP, Sign.DRIFT_DOWN]


def test_an_uneven_lot_is_called_out_by_its_range():
    rows = [[10.0, 10.1, 9.9, 10.05, 9.95]] * 11 + [[9.5, 10.5, 10.0, 10.2, 9.8]]
    assert [s.sign for s in weighed(rows).signals] == [Sign.UNEVEN]


def test_one_lot_far_out_makes_no_run_of_the_others():
    rows = [[10.0 + d, 10.1 + d, 9.9 + d] for d in (0.01, -0.01) * 6] + [[11.5, 11.6, 11.4]]
    signs = [s.sign for s in weighed(rows).signals]
    assert Sign.HIGH in signs
    assert Sign.RUN_LOW not in signs


def test_a_larger_sample_may_have_more_flaws():
    samples = [CountedSample(lot=f"{i}", flaws=4) for i in range(9)]
    large = CountedSample(lot="large", flaws=16, trays=4)
    it = count_chart(CountInput(samples=(*samples, large)))
    assert it.center == 4
    assert it.samples[-1].usual == 16
    assert it.signals == ()


def test_a_lot_lighter_than_chance_is_called_out():
    rows = [[10.0, 10.1, 9.9, 10.05, 9.95]] * 14 + [[9.6, 9.7, 9.5, 9.65, 9.55]]
    assert Sign.LOW in {s.sign for s in weighed(rows).signals}


@lawful
@given(st.floats(0.5, 50), st.floats(0.01, 0.1))
def test_a_chart_of_weights_scales_with_its_unit(factor, spread):
    rows = np.random.default_rng(2).normal(1, spread, (12, 4)).clip(0.1)
    one, other = weighed(rows.tolist()), weighed((rows * factor).tolist())
    assert other.high_g == pytest.approx(one.high_g * factor)
    assert [s.place for s in other.signals] == [s.place for s in one.signals]


def test_means_of_several_have_no_capability():
    rows = [[12 + i % 4 / 10] for i in range(12)]
    it = weighed(rows, mean_of=5, low_g=11, high_g=13)
    assert (it.within, it.overall) == (None, None)
    assert any("Weigh five one by one" in note for note in it.notes)
    assert any("nothing of how single baits differ" in note for note in it.notes)


def test_capability_wants_limits_lots_and_a_steady_weight():
    rows = np.random.default_rng(5).normal(12, 0.1, (12, 5))
    assert weighed(rows.tolist()).overall is None
    assert "No capability: too few to say." in weighed(rows[:7].tolist(), low_g=11.5).notes
    it = weighed(rows.tolist(), low_g=11.5, high_g=12.5)
    assert it.overall is not None
    assert it.overall.cpk_low < it.overall.cpk < it.overall.cpk_high
    one_sided = weighed(rows.tolist(), low_g=11.5).overall
    assert one_sided is not None
    assert one_sided.cp is None
    rows[10:] += 1
    drifted = weighed(rows.tolist(), low_g=11.5, high_g=14)
    assert any("says little until the weights are steady" in note for note in drifted.notes)
    assert drifted.within is not None
    assert drifted.overall is not None
    assert drifted.overall.cpk < drifted.within.cpk


def test_a_coarse_scale_hides_the_shape():
    rows = np.random.default_rng(6).normal(12, 0.1, (12, 5))
    fine, coarse = weighed(rows.tolist(), low_g=11), weighed(rows.round(1).tolist(), low_g=11)
    assert fine.normal_chance is not None
    assert coarse.normal_chance is None
    assert "The scale steps too coarsely to show the shape." in coarse.notes


def test_weights_of_two_sorts_never_look_normal_however_many_there_are():
    rng = np.random.default_rng(9)
    rows = rng.choice([10, 12], (2000, 10)) + rng.normal(0, 0.05, (2000, 10))
    few, many = weighed(rows[:50].tolist()), weighed(rows.tolist())
    assert few.normal_chance is not None
    assert many.normal_chance is not None
    assert 0 <= many.normal_chance <= few.normal_chance < 1e-6


def test_spread_of_single_weights_has_the_freedom_of_their_steps():
    """Ranges that overlap say less; the width of a capability's range follows what they say."""
    drawn = np.random.default_rng(8).normal(10, 0.1, (400, 30))
    found = [weighed([[v] for v in row], low_g=9, high_g=11).within for row in drawn]
    inside = np.mean([it.cpk_low <= 10 / 3 <= it.cpk_high for it in found if it])
    assert inside == pytest.approx(0.95, abs=0.03)


@pytest.mark.parametrize(
    ("given", "match"),
    [
        ({"low_g": 12, "high_g": 11}, "must be more than 12"),
        ({"ewma_weight": 0}, "must lie between"),
    ],
)
def test_limits_the_wrong_way_round_are_refused(given, match):
    with pytest.raises(BadInput, match=match):
        weighed([[12.0]], **given)


def test_lots_of_different_sizes_are_refused():
    with pytest.raises(BadInput, match="must hold 2 weights, as many as the first lot"):
        weighed([[1.0, 2.0], [1.0]])


def test_weights_all_alike_have_no_spread_and_no_limits():
    it = weighed([[12.0, 12.0]] * 9)
    assert (it.sigma_g, it.low_g, it.signals) == (None, None, ())
