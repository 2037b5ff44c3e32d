"""What to add to a hot cup: landing, pouring, starting over."""

from __future__ import annotations

import pytest

import color_bench
from pourwright.base.errors import BadInput
from pourwright.color.correct.answer import correct
from pourwright.color.correct.example import EXAMPLE
from pourwright.spectrum.difference import delta_e00

PLASTIC_G = 100.0


def cup(target, believed, true=None, *, instrument="color meter", thick_mm=3.0):
    """A cup believed to hold some drops that holds others; its drip is read without error."""
    light, a, b = (float(v) for v in target)
    drip = color_bench.puck("drip", true or believed, instrument=instrument, thick_mm=thick_mm)
    return correct.answer(
        {
            "match": {
                "target": {"lab": {"lightness": light, "a": a, "b": b}},
                "shelf": color_bench.shelf(), "plastic": color_bench.plastic(),
                "backing": "other", "ground_share": 0.86, "thick_mm": 8, "plastic_g": PLASTIC_G,
            },
            "in_cup": [
                {"name": n, "grams": c * color_bench.DROP_G, "drops": c}
                for n, c in believed.items()
            ],
            "drip": {
                "thick_mm": thick_mm, "instrument": instrument, "readings": drip["readings"],
            },
        }
    )  # fmt: skip


def shown(drops):
    return color_bench.lab(drops, thick_mm=8, ground=color_bench.GROUNDS["white"])


def test_a_cup_that_is_there_is_poured():
    answer = cup(shown({"yellow": 7, "blue": 3}), {"yellow": 7, "blue": 3})
    assert answer["advice"] == "pour"
    assert answer["additions"] == []
    assert answer["now"]["typical"] < 0.7
    assert answer["surprise"] < 0.3


@pytest.mark.parametrize("instrument", ["color meter", "spectrum"])
def test_missing_drops_are_named(instrument):
    answer = cup(shown({"yellow": 9, "blue": 4}), {"yellow": 9, "blue": 2}, instrument=instrument)
    assert answer["advice"] == "add"
    added = {a["name"]: a["steps"] for a in answer["additions"]}
    assert added["blue"] == 2
    after = {n: {"yellow": 9, "blue": 2}.get(n, 0) + added.get(n, 0) for n in color_bench.COLORANTS}
    assert float(delta_e00(shown(after), shown({"yellow": 9, "blue": 4}))) < 1
    assert answer["then"]["typical"] < answer["now"]["typical"]


def test_a_cup_too_dark_by_far_is_started_over():
    answer = cup(shown({"yellow": 3}), {"yellow": 3, "blue": 20})
    assert answer["advice"] == "start over"
    assert "cannot be taken out" in answer["words"]
    assert answer["additions"] == []


def test_a_drip_that_says_more_was_dripped_than_counted_is_believed():
    # Counted 4 drops of blue, 5 fell: the drip shows it, so less is added than the count asks.
    target = shown({"yellow": 8, "blue": 6})
    honest = cup(target, {"yellow": 8, "blue": 4})
    strong = cup(target, {"yellow": 8, "blue": 4}, {"yellow": 8, "blue": 5})
    assert strong["surprise"] > honest["surprise"] + 0.5
    blues = [
        {a["name"]: a["steps"] for a in answer["additions"]}.get("blue", 0)
        for answer in (honest, strong)
    ]
    assert blues[1] < blues[0]


def test_the_hot_cup_is_never_weighed():
    notes = " ".join(cup(shown({"yellow": 7}), {"yellow": 5})["notes"])
    assert "a hot cup is never put on the scale" in notes


@pytest.mark.parametrize(
    ("change", "field", "why"),
    [
        ({"in_cup": [{"name": "pink", "grams": 1}]}, "in_cup", "not on the shelf"),
        ({"in_cup": [{"name": "red", "grams": 1}, {"name": "red", "grams": 2}]},
         "in_cup", "twice"),
        ({"in_cup": [{"name": "red", "grams": 0}]}, "grams", "between"),
        ({"drip": EXAMPLE["drip"] | {"instrument": "spectrum"}}, "readings", "31"),
        ({"drip": EXAMPLE["drip"] | {"thick_mm": 90}}, "thick_mm", "between"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused(change, field, why):
    with pytest.raises(BadInput, match=why) as refusal:
        correct.answer(EXAMPLE | change)
    assert field in refusal.value.field
