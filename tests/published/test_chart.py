"""Charts against printed examples and a general statistics library."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy import stats

from pourwright.shop.chart import odds
from pourwright.shop.chart.capability import capability, normal_chance, normal_tail
from pourwright.shop.chart.constant import range_law
from pourwright.shop.chart.count import count_chart
from pourwright.shop.chart.mass import mass_chart
from pourwright.shop.chart.mass_input import EWMA_WEIGHT, EWMA_WIDTH
from pourwright.shop.chart.share import share_chart
from pourwright.shop.chart.signal import ALARM_EVERY, RUN

# NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.3.2: 30 wafers of 50 chips
# (data from memory; the mean share .2313 was read in a textbook's exercise on it).
WAFERS = (
    12, 15, 8, 10, 4, 7, 16, 9, 14, 10, 5, 6, 17, 12, 22,
    8, 10, 5, 13, 11, 20, 18, 24, 15, 9, 12, 7, 13, 9, 6,
)  # fmt: skip
# The same, 6.3.3.1: flaws on 25 wafers (from memory).
FLAWS = (
    16, 14, 28, 16, 12, 20, 10, 12, 10, 17, 19, 17, 14,
    16, 15, 13, 14, 16, 11, 20, 11, 19, 16, 31, 13,
)  # fmt: skip
# The same, 6.3.2.2 and 6.3.2.4: ten readings, and the ten before them (from memory).
TEN = (49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1)
TWENTY = (52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, *TEN)


def lots(values, name):
    return [{"lot": str(i), name: value} for i, value in enumerate(values, start=1)]


def test_shares_of_wafers():
    # NIST/SEMATECH e-Handbook, 6.3.3.2: center .2313, limits .0524 and .4102, 15 and 23 outside.
    it = share_chart.answer({"lots": [lot | {"n": 50} for lot in lots(WAFERS, "bad")]})
    assert it["center"] == pytest.approx(0.2313, abs=5e-5)
    assert it["lots"][0]["low"] == pytest.approx(0.0524, abs=1e-4)
    assert it["lots"][0]["high"] == pytest.approx(0.4102, abs=1e-4)
    assert [s["place"] for s in it["signals"]] == [15, 23]


def test_flaws_of_wafers():
    # NIST/SEMATECH e-Handbook, 6.3.3.1: center 16, limits 4 and 28; the 31 lies outside.
    it = count_chart.answer({"samples": lots(FLAWS, "flaws")})
    assert (it["center"], it["samples"][0]["low"], it["samples"][0]["high"]) == (16, 4, 28)
    assert [s["place"] for s in it["signals"]] == [24]


def test_single_readings():
    # NIST/SEMATECH e-Handbook, 6.3.2.2: mean 50.81, steps 1.8778, limits 45.8159 and 55.8041;
    # it divides by 1.128, not by 1.12838.
    it = mass_chart.answer({"subgroups": lots([[v] for v in TEN], "masses_g")})
    assert it["center_g"] == pytest.approx(50.81)
    assert it["range_center_g"] == pytest.approx(1.8778, abs=5e-5)
    assert it["low_g"] == pytest.approx(45.8159, abs=2e-3)
    assert it["high_g"] == pytest.approx(55.8041, abs=2e-3)
    assert not it["signals"]


def test_moving_mean():
    # NIST/SEMATECH e-Handbook, 6.3.2.4: weight .3, width 3, mean 50, spread 2.0539.
    it = mass_chart.answer(
        {
            "subgroups": lots([[v] for v in TWENTY], "masses_g"),
            "usual_g": 50, "usual_sigma_g": 2.0539, "ewma_weight": 0.3, "ewma_width": 3,
        }
    )  # fmt: skip
    printed = (
        50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33,
        50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99,
    )  # fmt: skip
    assert [lot["ewma_g"] for lot in it["lots"]] == pytest.approx(printed, abs=0.006)
    assert it["ewma_low_g"] == pytest.approx(47.4115, abs=1e-4)
    assert it["ewma_high_g"] == pytest.approx(52.5884, abs=1e-4)


def test_first_limit_of_a_moving_mean_is_that_of_one_reading():
    # NIST/SEMATECH e-Handbook, 6.3.2.4: the first value varies by weight times sigma alone.
    it = mass_chart.answer(
        {
            "subgroups": lots([[10.0, 10.2, 9.8]], "masses_g"),
            "usual_g": 10, "usual_sigma_g": 0.3,
        }
    )  # fmt: skip
    apart = EWMA_WIDTH * EWMA_WEIGHT * 0.3 / math.sqrt(3)
    assert it["lots"][0]["ewma_high_g"] == pytest.approx(10 + apart)


@pytest.mark.parametrize(
    ("n", "d2", "lowest", "highest"),
    [
        # NIST/SEMATECH e-Handbook, 6.3.2.1: d2, and the factors D3 and D4 (from memory).
        (2, 1.128, 0, 3.267), (3, 1.693, 0, 2.575), (4, 2.059, 0, 2.282), (5, 2.326, 0, 2.115),
        (6, 2.534, 0, 2.004), (7, 2.704, 0.076, 1.924), (8, 2.847, 0.136, 1.864),
        (9, 2.970, 0.184, 1.816), (10, 3.078, 0.223, 1.777),
    ],
)  # fmt: skip
def test_factors_of_ranges(n, d2, lowest, highest):
    law = range_law(n)
    assert law.d2 == pytest.approx(d2, abs=6e-4)
    assert law.lowest == pytest.approx(lowest, abs=1e-3)
    assert law.highest == pytest.approx(highest, abs=1e-3)


@pytest.mark.parametrize("n", [2, 5, 10])
def test_ranges_against_the_studentized_range(n):
    # Independent library: its studentized range with endless freedom is the range of a normal.
    nodes, weights = np.polynomial.legendre.leggauss(48)
    above = stats.studentized_range.sf(8 * (nodes + 1), n, np.inf)
    assert range_law(n).d2 == pytest.approx(float(8 * weights @ above), rel=1e-6)


def test_closed_forms_of_small_ranges():
    # Two values differ by |N(0, 2)|; three by 3 / sqrt(pi). Tippett, Biometrika 17 (1925).
    assert range_law(2).d2 == pytest.approx(2 / math.sqrt(math.pi), abs=1e-12)
    assert range_law(2).d3 == pytest.approx(math.sqrt(2 - 4 / math.pi), abs=1e-9)
    assert range_law(3).d2 == pytest.approx(3 / math.sqrt(math.pi), abs=1e-12)


def test_means_and_ranges_from_printed_factors():
    # NIST/SEMATECH e-Handbook, 6.3.2.1: mean +- A2 R, with A2 = .577 for five (from memory).
    rng = np.random.default_rng(7)
    data = rng.normal(12, 0.2, (10, 5))
    it = mass_chart.answer({"subgroups": lots(data.tolist(), "masses_g")})
    mean_range = np.ptp(data, axis=1).mean()
    assert it["high_g"] - it["center_g"] == pytest.approx(0.577 * mean_range, rel=1e-3)
    assert it["range_high_g"] == pytest.approx(2.115 * mean_range, rel=1e-3)


def test_capability():
    # NIST/SEMATECH e-Handbook, 6.1.6: limits 8 and 20, mean 16, spread 2: Cp 1.0, Cpk .6667.
    it = capability(mean=16, sigma=2, low=8, high=20, freedom=29, count=30)
    assert it.cp == 1.0
    assert it.cpk == pytest.approx(0.6667, abs=5e-5)


@pytest.mark.parametrize(("count", "low", "high"), [(30, 0.97, 1.69), (50, 1.05, 1.61)])
def test_range_of_a_capability(count, low, high):
    # Bissell, Applied Statistics 39 (1990) 331 (from memory, by hand for a Cpk of 1.33).
    it = capability(mean=0, sigma=1, low=-3.99, high=3.99, freedom=count - 1, count=count)
    assert it.cpk == pytest.approx(1.33)
    assert it.cpk_low == pytest.approx(low, abs=0.006)
    assert it.cpk_high == pytest.approx(high, abs=0.006)


def test_none_bad_of_twenty_allows_a_sixth():
    # Clopper and Pearson, Biometrika 26 (1934) 404: 1 - .025^(1/20) = .168.
    assert odds.share_range(0, 20)[1] == pytest.approx(1 - 0.025 ** (1 / 20))


def test_the_rule_of_three_in_full():
    # 1 - .95 = (1 - share)^n, solved for n; the rule of three says 60, 150 and 300.
    # Hanley and Lippman-Hand, JAMA 249 (1983) 1743.
    assert [odds.none_bad_needed(s) for s in (0.05, 0.02, 0.01)] == [59, 149, 299]


@pytest.mark.parametrize(("bad", "n"), [(0, 9), (1, 20), (7, 40), (40, 40), (3, 1000)])
def test_possible_shares_against_a_library(bad, n):
    found = stats.binomtest(bad, n).proportion_ci(0.95, "exact")
    assert odds.share_range(bad, n) == pytest.approx((found.low, found.high), abs=1e-9)


@pytest.mark.parametrize(("n", "share"), [(20, 0.05), (171, 0.05), (50, 0.23), (300, 0.02)])
def test_exact_limits_against_a_library(n, share):
    chance, law = odds.of_share(n, share), stats.binom(n, share)
    most = odds.most_likely(chance)
    assert most is not None
    assert law.sf(most) < odds.RARE <= law.sf(most - 1)
    fewest = odds.fewest_likely(chance)
    assert law.cdf((fewest or 0) - 1) < odds.RARE <= law.cdf(fewest or 0)


def test_exact_limits_of_flaws_against_a_library():
    chance, law = odds.of_rate(16), stats.poisson(16)
    most, fewest = odds.most_likely(chance), odds.fewest_likely(chance)
    assert most is not None
    assert fewest is not None
    assert law.sf(most) < odds.RARE <= law.sf(most - 1)
    assert law.cdf(fewest - 1) < odds.RARE <= law.cdf(fewest)


def test_exact_limits_of_very_many_flaws_come_at_once():
    # So many are as good as normal: three standard deviations, sqrt(1e10) each (closed form).
    chance = odds.of_rate(1e10)
    assert odds.most_likely(chance) == pytest.approx(1e10 + 3e5, abs=20)
    assert odds.fewest_likely(chance) == pytest.approx(1e10 - 3e5, abs=20)


def test_no_lower_limit_before_there_are_baits_enough():
    # At 5 %, 3 sqrt(p (1 - p) / n) < p needs n > 9 (1 - p) / p = 171 (closed form).
    for n, limited in ((171, False), (172, True)):
        it = share_chart.answer(
            {"lots": [{"lot": "x", "bad": 5, "n": n}], "usual_share": 0.05}
        )["lots"][0]  # fmt: skip
        assert (it["low"] is not None) is limited


def ewma_run_length(weight, width, shift, states=101):
    """Mean lots to an alarm, by the Markov chain of Lucas and Saccucci (1990)."""
    limit = width * math.sqrt(weight / (2 - weight))
    step = 2 * limit / states
    at = -limit + step * (np.arange(states) + 0.5)
    edge = (at[None, :] - (1 - weight) * at[:, None]) / weight - shift
    half = step / weight / 2
    moves = stats.norm.cdf(edge + half) - stats.norm.cdf(edge - half)
    return np.linalg.solve(np.eye(states) - moves, np.ones(states))[states // 2]


@pytest.mark.parametrize(
    ("shift", "lots_to_alarm"), [(0, 500), (0.5, 41.8), (1, 10.5), (2, 3.7)]
)  # fmt: skip
def test_lots_until_the_moving_mean_alarms(shift, lots_to_alarm):
    # Lucas and Saccucci, Technometrics 32 (1990) 1, table 3: weight .2, width 2.962 (from memory).
    found = ewma_run_length(EWMA_WEIGHT, EWMA_WIDTH, shift)
    assert found == pytest.approx(lots_to_alarm, rel=0.02)


def test_lots_until_a_false_alarm():
    # Champ and Woodall, Technometrics 29 (1987) 393, table 1: 370.4 by limits alone, 152.73 with
    # runs of eight (from memory), by the chain of run lengths.
    outside = 2 * odds.RARE
    assert 1 / outside == pytest.approx(370.4, abs=0.05)
    one_side = (1 - outside) / 2
    moves = np.zeros((RUN, RUN))
    moves[0, 1] = 2 * one_side
    for length in range(1, RUN):
        moves[length, 1] = one_side
        if length + 1 < RUN:
            moves[length, length + 1] = one_side
    found = np.linalg.solve(np.eye(RUN) - moves, np.ones(RUN))[0]
    assert found == pytest.approx(152.73, abs=0.01)
    assert found == pytest.approx(ALARM_EVERY, rel=0.03)


@pytest.mark.parametrize(
    ("statistic", "chance"), [(0.631, 0.10), (0.752, 0.05), (0.873, 0.025), (1.035, 0.01)]
)
def test_tail_of_the_doubt_about_the_shape(statistic, chance):
    # D'Agostino and Stephens, Goodness-of-Fit Techniques (1986), table 4.7 (from memory).
    assert normal_tail(statistic) == pytest.approx(chance, rel=0.03)


@pytest.mark.parametrize("size", [20, 60, 200])
def test_doubt_of_the_shape_is_right_as_often_as_it_says(size):
    rng = np.random.default_rng(size)
    assert normal_chance(rng.exponential(size=size)) < 0.01
    rejected = np.mean([normal_chance(rng.normal(size=size)) < 0.05 for _ in range(1500)])
    assert rejected == pytest.approx(0.05, abs=0.02)
