"""Numbers in words: the same on screen and paper."""

from __future__ import annotations

import pytest

from pourwright.base.band import Band
from pourwright.base.units import System
from pourwright.base.wording import (
    clock,
    grouped,
    miss,
    money,
    percent,
    unit_label,
    worded,
    words_of,
)

NBSP = "\N{NO-BREAK SPACE}"


# 350 °F = 176.67 °C, 1 in = 25.4 mm, 1 US fl oz = 29.5735 mL: NIST SP 811 (2008), appendix B.
@pytest.mark.parametrize(
    ("value", "unit", "metric", "us"),
    [
        (176.6666667, "c", "177 °C", "350 °F"),
        (180.0, "c", "180 °C", "356 °F"),
        (Band(165.2, 171.0, 179.8), "c", "165–180 °C", "329–356 °F"),
        (10.0, "k", "10 K", "18 °F"),
        (177.441, "ml", "177.4 mL", "6 fl oz"),
        (14.5, "ml", "14.5 mL", "14.5 mL"),
        (25.4, "mm", "25.4 mm", "1 in"),
        (334.2, "g", "334.2 g", "334.2 g"),
        (1.08, "g_ml", "1.08 g/mL", "1.08 g/mL"),
    ],
)
def test_values_in_both_systems(value, unit, metric, us):
    assert worded(value, unit, System.METRIC).replace(NBSP, " ") == metric
    assert worded(value, unit, System.US).replace(NBSP, " ") == us


@pytest.mark.parametrize(
    ("seconds", "words"),
    [
        (270, "4:30 min"),
        (45, "45 s"),
        (59.6, "1:00 min"),
        (Band(38, 71, 124), "0:38–2:04 min"),
        (Band(20, 31, 44), "20–44 s"),
    ],
)
def test_times_a_microwave_takes(seconds, words):
    assert worded(seconds, "s", System.US).replace(NBSP, " ") == words


@pytest.mark.parametrize(
    ("band", "words"),
    [
        (Band(46, 52, 55), "46–55"),
        (Band(8.7, 9.1, 9.6), "8.7–9.6"),
        (Band(1018.2, 1031.7, 1102.1), "1,018–1,102"),
        (Band(3.0, 3.0, 3.0), "3"),
        (Band(0, 0, 0), "0"),
        (Band(-3, 1, 4), "−3 to 4"),
        (Band(0.0, 0.0, 0.4), "0.0–0.4"),
    ],
)
def test_a_range_is_no_finer_than_it_is_known(band, words):
    assert worded(band, "", System.US) == words


def test_a_band_may_come_as_json():
    kept = {"low": 165.0, "typical": 170.0, "high": 180.0}
    assert words_of(kept, "c", System.METRIC).bare == "165–180"
    assert words_of(kept, "c", System.METRIC).middle == f"170{NBSP}°C"


def test_labels_for_table_heads():
    assert (unit_label("c", System.US), unit_label("c", System.METRIC)) == ("°F", "°C")


@pytest.mark.parametrize(
    ("amount", "sign", "words"),
    [
        (31.456, "$", "$31.46"),
        (0.07, "$", "$0.07"),
        (0.0734, "$", "$0.07"),
        (-1.27, "€", "−€1.27"),
        (1234.5, "kr", f"kr{NBSP}1,234.50"),
        (Band(-2, -1.5, -1), "$", "−$1.00–2.00"),
        (Band(-0.5, 0.2, 1), "$", "$−0.50 to 1.00"),
    ],
)
def test_money(amount, sign, words):
    assert money(amount, sign) == words


def test_clock_shares_and_misses():
    assert [clock(s) for s in (0, 9.4, 90, 599.5)] == ["0:00", "0:09", "1:30", "10:00"]
    assert [percent(s) for s in (0.0, 0.69, 1.0)] == ["0%", "69%", "100%"]
    assert [miss(s) for s in (-0.12, 0.0, 0.031)] == ["−12%", "0%", "+3%"]
    assert grouped(-0.001, 2) == "0.00"
