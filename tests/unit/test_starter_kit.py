"""What the starter kit refuses, and the reasons it gives."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from pourwright.actions.demo_prices import demo_prices
from pourwright.actions.starter_kit import best_of
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.plan.kit.starter_kit import starter_kit
from pourwright.shop.wish import Wish

MOLD = {"name": "Mold", "cost_money": 40, "worth": 40, "must": True, "group": "mold"}
OPEN = {"name": "Open mold", "cost_money": 22, "worth": 20, "group": "mold"}
INJECTOR = {"name": "Injector", "cost_money": 38, "worth": 10}


def kit(budget: float, *items):
    return starter_kit.answer({"budget_money": budget, "items": list(items)})


def why(answer, name: str) -> str:
    return next(str(left["why"]) for left in answer["left_out"] if left["name"] == name)


def test_of_a_group_with_a_must_one_is_bought():
    answer = kit(30, MOLD, OPEN)
    assert [p["name"] for p in answer["picks"]] == ["Open mold"]
    assert why(answer, "Mold") == (
        "only one of its group is bought, and that is Open mold; no kit with it and the musts "
        "keeps the budget"
    )


def test_what_is_needed_comes_along_or_is_named():
    needing = MOLD | {"needs": [{"item": "Injector"}]}
    assert {p["name"] for p in kit(78, needing, OPEN, INJECTOR)["picks"]} == {"Mold", "Injector"}
    bare = needing | {"must": False, "group": ""}
    answer = kit(77.6, bare, OPEN, INJECTOR)
    assert {p["name"] for p in answer["picks"]} == {"Open mold", "Injector"}
    assert why(answer, "Mold").startswith("would need ¤22.40 more; no kit with it")
    poor = kit(30, bare, OPEN, INJECTOR)
    assert why(poor, "Mold").startswith("would need ¤70.00 more with Injector;")


def test_equal_worth_goes_to_the_cheaper_and_then_to_fewer_pieces():
    cheap = {"name": "Cheap", "cost_money": 9, "worth": 10, "group": "one"}
    dear = {"name": "Dear", "cost_money": 10, "worth": 10, "group": "one"}
    answer = kit(10, dear, cheap)
    assert [p["name"] for p in answer["picks"]] == ["Cheap"]
    assert "a kit with it can be worth as much, but is not cheaper" in why(answer, "Dear")
    whole = {"name": "Whole", "cost_money": 10, "worth": 10}
    half = {"name": "Half", "cost_money": 5, "worth": 5, "most": 2}
    assert [p["name"] for p in kit(10, half, whole)["picks"]] == ["Whole"]


def test_musts_over_the_budget_are_refused_with_what_is_short():
    with pytest.raises(NoAnswer, match=r"costs ¤40\.00 at least \(Mold\): ¤9\.50 more than the"):
        kit(30.5, MOLD)


def test_musts_that_shut_each_other_out_are_refused():
    needing = INJECTOR | {"must": True, "needs": [{"item": "Mold"}, {"item": "Open mold"}]}
    with pytest.raises(NoAnswer, match="cannot go together"):
        kit(500, MOLD, OPEN, needing)


@pytest.mark.parametrize(
    ("items", "words"),
    [
        ((MOLD, MOLD), r"items\[1\]\.name: stands on the list twice"),
        ((MOLD | {"needs": [{"item": "Press"}]},), r"items\[0\]\.needs\[0\]\.item: is not on"),
        ((MOLD | {"needs": [{"item": "Mold"}]},), "cannot need itself"),
        ((MOLD | {"cost_money": 4.005},), r"items\[0\]\.cost_money: must be in whole cents"),
        ((MOLD | {"worth": -1},), r"items\[0\]\.worth: must lie between"),
    ],
)
def test_a_list_that_cannot_be_is_refused(items, words):
    with pytest.raises(BadInput, match=words):
        kit(100, *items)


def demo_wishes() -> dict[str, Wish]:
    return {key: noun for key, noun in demo_prices().items() if isinstance(noun, Wish)}


def test_a_wish_that_is_gone_or_there_already_is_needed_no_more():
    listed = demo_wishes()
    del listed["demo-wish-injector"]
    held = {p.name for p in best_of(listed, 250).picks}
    assert "Closed mold, two shads" in held
    assert "Four-ounce injector" not in held


def test_nothing_but_the_answer_stands_on_standard_output():
    """On this list the solver prints a line of its own."""
    listed = demo_wishes()
    items = [
        {
            "name": w.name, "cost_money": w.price_money, "worth": w.worth, "most": w.most,
            "must": w.must, "group": w.group,
            "needs": [{"item": listed[n.wish].name} for n in w.needs],
        }
        for w in sorted(listed.values(), key=lambda w: w.name)
    ]  # fmt: skip
    done = subprocess.run(
        [
            sys.executable,
            "-c",
            "from pourwright.cli.main import main; main()",
            "calc",
            "shop.starter_kit",
        ],
        input=json.dumps({"budget_money": 250, "items": items}),
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert json.loads(done.stdout) == starter_kit.answer({"budget_money": 250, "items": items})
