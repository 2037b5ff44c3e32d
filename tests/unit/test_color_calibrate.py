"""Learning colorants from pucks: what comes out, what is doubted, what is refused."""

from __future__ import annotations

import copy

import numpy as np
import pytest

import color_bench
from pourwright.base.errors import BadInput
from pourwright.base.record import from_json
from pourwright.color.calibrate.answer import calibrate
from pourwright.color.constants import Constants
from pourwright.color.correct.believed import of_constants


@pytest.fixture(scope="module")
def learned():
    pucks = color_bench.default_pucks()
    mixture = color_bench.puck("check", {"yellow": 5, "blue": 2, "white": 1}, use="check")
    return calibrate.answer({"colorants": color_bench.unknowns(), "pucks": [*pucks, mixture]})


def test_three_numbers_a_reading_forecast_a_mixture_nobody_poured(learned):
    # The check puck took no part; half a step of what a person sees, read without noise.
    assert learned["check_misfit"] < 1.0
    assert learned["typical_misfit"] < 0.6


def test_what_was_learned_is_near_what_is_true(learned):
    by_name = {c["name"]: c for c in learned["colorants"]}
    for name, (absorb, _) in color_bench.COLORANTS.items():
        if name == "white":
            continue
        found = np.array(by_name[name]["constants"]["absorb_mm"])
        strong = absorb > absorb.max() / 5
        assert np.abs(np.log(found / absorb)[strong]).mean() < 0.25
        assert by_name[name]["words"] in {"well known", "known"}
        assert by_name[name]["readings"] >= 6


def test_pucks_that_fit_are_not_doubted(learned):
    assert learned["doubted"] == []


def test_spectra_teach_more_than_three_numbers(learned):
    fine = calibrate.answer(
        {
            "colorants": color_bench.unknowns(),
            "pucks": [
                *color_bench.default_pucks("spectrum"),
                color_bench.puck(
                    "check", {"yellow": 5, "blue": 2, "white": 1}, instrument="spectrum",
                    use="check",
                ),
            ],
        }
    )  # fmt: skip
    assert fine["check_misfit"] < 0.4
    fine_open, rough_open = (
        sum(c["open_lab"] for c in answer["colorants"]) for answer in (fine, learned)
    )
    assert fine_open < rough_open


def test_two_swapped_pucks_are_named_together():
    pucks = color_bench.default_pucks()
    one, two = (next(p for p in pucks if p["name"] == n) for n in ("red 8", "blue 8"))
    one["readings"], two["readings"] = two["readings"], one["readings"]
    answer = calibrate.answer({"colorants": color_bench.unknowns(), "pucks": pucks})
    whys = {d["puck"]: d["why"] for d in answer["doubted"]}
    assert "reads like blue 8: were the two swapped?" in whys["red 8"]
    assert "reads like red 8" in whys["blue 8"]


def test_a_puck_that_contradicts_its_colorant_is_doubted():
    pucks = color_bench.default_pucks()
    odd = color_bench.puck("odd", {"yellow": 8})
    odd["readings"] = color_bench.puck("x", {"blue": 6})["readings"]
    answer = calibrate.answer({"colorants": color_bench.unknowns(), "pucks": [*pucks, odd]})
    assert answer["doubted"][0]["puck"] == "odd"
    assert answer["doubted"][0]["misfit"] > 3


def test_swapped_cards_are_named():
    pucks = color_bench.default_pucks()
    readings = pucks[1]["readings"]
    readings[0]["read"], readings[1]["read"] = readings[1]["read"], readings[0]["read"]
    answer = calibrate.answer({"colorants": color_bench.unknowns(), "pucks": pucks})
    assert "cards were swapped" in answer["doubted"][0]["why"]


def test_few_pucks_teach_what_they_can_and_the_next_is_named():
    pucks = [p for p in color_bench.default_pucks() if p["name"] in {"plain", "white 2", "red 2"}]
    answer = calibrate.answer(
        {"colorants": [{"name": "white"}, {"name": "red"}, {"name": "blue"}], "pucks": pucks}
    )
    words = {c["name"]: c["words"] for c in answer["colorants"]}
    assert words["blue"].startswith("never read")
    assert "blue" in {d["colorant"] for d in answer["next_puck"]["doses"]}
    assert any("check puck" in n for n in answer["notes"])


def test_a_drip_teaches_a_colorant_that_has_no_puck():
    drip = color_bench.puck("drip", {"blue": 5}, source="drip", thick_mm=3)
    base = [p for p in color_bench.default_pucks() if p["name"] == "plain"]
    unknown = {"colorants": [{"name": "blue"}]}
    without = calibrate.answer(unknown | {"pucks": base})["colorants"][0]["open_lab"]
    answer = calibrate.answer(unknown | {"pucks": [*base, drip]})
    assert answer["colorants"][0]["open_lab"] < without / 4


def test_constants_go_out_and_come_back_with_their_spread():
    constants = calibrate.answer(calibrate.example)["colorants"][0]["constants"]
    record = from_json(Constants, constants)
    belief = of_constants(record)
    assert np.exp(belief.absorb) == pytest.approx(record.absorb_mm)
    assert len(record.spread) >= 3
    told = sum(np.square(way.absorb) for way in record.spread)
    variance = (belief.factor**2).sum(axis=1)[:31]
    assert (variance >= told - 1e-3).all()


def test_an_air_gap_taken_for_contact_shows(learned):
    pucks = color_bench.default_pucks()
    wrong = copy.deepcopy(pucks)
    for puck in wrong:
        puck["placing"] = "air gap"
    off = calibrate.answer({"colorants": color_bench.unknowns(), "pucks": wrong})
    assert off["typical_misfit"] > 2 * learned["typical_misfit"]


@pytest.mark.parametrize(
    ("change", "field", "why"),
    [
        ({"doses": [{"colorant": "red", "grams_per_100g": 0}]}, "grams_per_100g", "between"),
        ({"doses": [{"colorant": "pink", "grams_per_100g": 1}]}, "doses", "is not among"),
        ({"readings": []}, "readings", "1 to 12"),
        ({"thick_mm": 0.1}, "thick_mm", "between"),
        ({"instrument": "spectrum"}, "readings", "must hold 31 reflectances"),
        ({"use": "check"}, "pucks", "at least one must teach"),
    ],
)
def test_what_cannot_be_is_refused(change, field, why):
    puck = color_bench.puck("red 2", {"red": 2}) | change
    with pytest.raises(BadInput, match=why) as refusal:
        calibrate.answer({"colorants": [{"name": "red"}], "pucks": [puck]})
    assert refusal.value.field.split(".")[-1].split("[")[0] == field or field in refusal.value.field
