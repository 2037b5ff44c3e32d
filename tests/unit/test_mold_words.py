"""A mold's numbers in plain words."""

from __future__ import annotations

from pourwright.base.band import Band
from pourwright.base.units import System
from pourwright.fill.change import MORE_PRESSURE
from pourwright.fill.odds import Help
from pourwright.fill.outcome import Stop
from pourwright.fill.slice import Part, SlicePart
from pourwright.web.mold_words import (
    dent_words,
    helps_worth,
    lift_words,
    percents,
    pressure_words,
    stop_words,
    verdict,
)
from pourwright.web.show import Settings

METRIC = Settings(system=System.METRIC)
CHAIN = (
    SlicePart(length_mm=40, width_mm=8, thick_mm=8, part=Part.SPRUE),
    SlicePart(length_mm=4, width_mm=4, thick_mm=4, part=Part.GATE),
    SlicePart(length_mm=100, width_mm=10, thick_mm=10),
)


def stop(front: Band, part: str, shut: str | None) -> Stop:
    return Stop(share=0.5, front_mm=front, front_in=part, shut_mm=None, shut_in=shut)


def test_a_verdict_falls_with_the_odds():
    words = [verdict(share) for share in (1.0, 0.95, 0.94, 0.8, 0.6, 0.3, 0.05, 0.0)]
    assert words[0] == words[1] == "Fills nearly always"
    assert words[2] == words[3] == "Fills most of the time"
    assert words[4:] == [
        "Fills more often than not", "Mostly stays short", "Hardly ever fills",
        "Hardly ever fills",
    ]  # fmt: skip


def test_a_stop_is_told_from_the_gate_on():
    """44 mm of feed: a front 94 mm from the nozzle is 50 mm past the gate."""
    told = stop_words(stop(Band(64, 94, 144), "cavity", "gate"), CHAIN, METRIC)
    assert "20 to 100\xa0mm past the gate" in told
    assert told.endswith("the plastic sets in the gate first.")
    early = stop_words(stop(Band(5, 10, 30), "sprue", None), CHAIN, METRIC)
    assert early == "Those that stay short stop in the sprue already."


def test_only_changes_that_gain_are_told_and_the_caution_stands_once():
    helps = (
        Help("two hands on the plunger", MORE_PRESSURE, 0.9, 0.2),
        Help("smaller bore", f"A bore of 30 mm. {MORE_PRESSURE}", 0.8, 0.1),
        Help("vents", "Cut them.", 0.69, -0.01),
    )
    assert [(h.change, how) for h, how in helps_worth(helps)] == [
        ("two hands on the plunger", ""),
        ("smaller bore", "A bore of 30 mm."),
    ]
    told = pressure_words(helps)
    assert told.startswith("Mind with two hands on the plunger and smaller bore: ")
    assert told.count(MORE_PRESSURE) == 1
    assert pressure_words(helps[2:]) == ""


def test_dents_clamps_and_ranges_in_words():
    """25.4 mm to the inch: NIST SP 811."""
    assert dent_words(Band(0, 0.1, 0.2)) == "No dent that anybody sees."
    assert "0.5 mm / 0.02 in" in dent_words(Band(0.3, 0.5, 0.9))
    assert "everybody sees" in dent_words(Band(0.9, 1.3, 1.9))
    assert lift_words(0.02, 2) == "The clamps hold."
    assert "add the clamps" in lift_words(1.0, 0)
    assert "30%" in lift_words(0.3, 2)
    assert "more clamps" in lift_words(0.7, 1)
    assert percents(Band(0.416, 0.48, 0.547)) == "42 to 55\xa0%"
