"""What a frozen sheet asks of its pour, and what is made of a sheet that cannot be read."""

from __future__ import annotations

import copy
import dataclasses
from typing import Any

import pytest

import example_sheet
from fake_bench import FakeStore
from pourwright.actions.port import Bench, Event
from pourwright.actions.pour_setup import pour_setup
from pourwright.actions.told_pour import Firm, told_pour
from pourwright.base.errors import Conflict
from pourwright.bench.pour_setup import PourSetup, WetThing
from pourwright.bench.tap_kind import BEGUN, FILLED, OPENED, SOFT
from pourwright.shop.mold import Mold
from pourwright.shop.sheet import Sheet
from pourwright.shop.tool import Cup

AT = "2026-06-14T16:00:00Z"


@pytest.fixture
def bench() -> Bench:
    with FakeStore().bench() as made:
        return made


def sheet(**changes: Any) -> Sheet:
    made = copy.deepcopy(example_sheet.sheet())
    return dataclasses.replace(made, **changes)


def setup(bench: Bench, it: Sheet | None = None) -> PourSetup:
    return pour_setup(bench, it or sheet())


def test_cold_parts_are_weighed_and_the_rest_tints_the_hot_cup(bench):
    cup = setup(bench).cups[0]
    assert [(p.name, p.scale_g) for p in cup.weigh] == [
        ("Medium plastic, jug of May", 334.2), ("Remelt, dry", 42.5), ("Fine salt", 33.4),
        ("Heat stabilizer", 1.7),
    ]  # fmt: skip
    assert [p.name for p in cup.tint] == ["Marsh green", "Soot black", "Copper flake, 0.6 mm"]
    assert len({p.key for p in (*cup.weigh, *cup.tint)}) == 7


def test_drops_weigh_what_the_sheet_says_they_weigh(bench):
    green, _, flake = setup(bench).cups[0].tint
    # 24 drops of 0.968 g that miss by -0.8 % together.
    assert green.drops == 24
    assert green.drop_g == pytest.approx(0.968 * (1 - 0.008) / 24)
    assert (flake.drops, flake.drop_g, flake.spoons) == (None, None, "1 + 1/4 tsp")


def test_molds_layers_and_injector_are_the_sheet_s(bench):
    made = setup(bench, sheet(plan=example_sheet.sheet(example_sheet.layered()).plan))
    assert made.molds == ("Reed worm mold",) * 2
    assert (made.cavities, made.injector) == (4, True)
    assert made.layers == ("body", "belly", "back", "vein")
    by_hand = sheet(request=example_sheet.REQUEST | {"injector": None})
    assert setup(bench, by_hand).ready == ("room", "jug", "start", "dry", "oven")


def test_a_shot_the_sheet_does_not_weigh_is_an_even_share_of_its_cup(bench):
    plan = copy.deepcopy(dict(sheet().plan))
    plan["cups"][0].pop("shot_g", None)
    assert setup(bench, sheet(plan=plan)).cups[0].shot_g == pytest.approx((334.2 + 82.1) / 7)
    plan["cups"][0]["shot_g"] = 51.25
    assert setup(bench, sheet(plan=plan)).cups[0].shot_g == 51.25


def test_a_part_of_nothing_is_not_weighed(bench):
    plan = copy.deepcopy(dict(sheet().plan))
    plan["cups"][0]["remelt_g"] = 0.0
    assert "Remelt, dry" not in [p.name for p in setup(bench, sheet(plan=plan)).cups[0].weigh]


def test_tools_whose_records_say_wet_are_named(bench):
    mold = Mold(name="Reed worm mold", bait="b", cavities=4, wet=True)
    bench.records.save("mold", "m1", mold, expected_version=0)
    bench.records.save("cup", "c1", Cup(name="Pint", volume_ml=946), expected_version=0)
    draft = {"mold": "m1", "cup": "c1"}
    assert setup(bench, sheet(draft=draft)).wet == (WetThing("mold", "m1", "Reed worm mold"),)
    assert setup(bench, sheet(draft={"mold": "gone", "cup": None})).wet == ()


@pytest.mark.parametrize("missing", ["cups", "mold", "injector", "lines", "shots", "sort"])
def test_a_sheet_of_another_version_says_so_in_words(bench, missing):
    plan, request = copy.deepcopy(dict(sheet().plan)), dict(example_sheet.REQUEST)
    if missing in {"mold", "injector"}:
        del request[missing]
    elif missing == "cups":
        del plan["cups"]
    elif missing == "sort":
        plan["cups"][0]["lines"][0]["sort"] = "moonshine"
    else:
        del plan["cups"][1][missing]
    with pytest.raises(Conflict, match=r"sheet 12 was frozen by version 0\.1\.0.*by its paper"):
        setup(bench, sheet(plan=plan, request=request))


TWO_FULL: tuple[tuple[str, str, dict[str, Any]], ...] = (
    (BEGUN, "16:00:00", {"cup": 1, "for_s": 60.0}),
    (FILLED, "16:10:00", {"mold": 1, "drawn_g": {"1": 57.9}}),
    (FILLED, "16:11:00", {"mold": 2, "drawn_g": {"1": 57.9}}),
)


def firm(bench: Bench, *events: tuple[str, str, dict[str, Any]]) -> tuple[Firm, ...]:
    """When the molds are due on a sheet whose request this version cannot read."""
    it = sheet()
    for n, (kind, at, body) in enumerate(events):
        event = Event(f"{n:032x}", f"lot/{it.code}", kind, f"2026-06-14T{at}Z", body)
        bench.ledger.append(event)
    told = told_pour(bench, it)
    assert told.request is None
    return told.firm


# Firm in four cases of five where 150 s are typical and 260 s the high end of a logarithmic spread:
# 150 * (260 / 150) ** (0.8416 / 1.6449), the deviations of NIST/SEMATECH e-Handbook, 1.3.6.7.1.
RINGS_S = 150 * (260 / 150) ** (0.8416 / 1.6449)


def test_without_a_readable_request_molds_are_due_at_the_printed_time(bench):
    first, second = firm(bench, *TWO_FULL)
    assert (first.at[11:19], second.at[11:19]) == ("16:13:19", "16:14:19")
    assert (first.after_s.low, first.after_s.high) == (95, 260)


def test_a_soft_bait_makes_all_clocks_longer_in_proportion(bench):
    first, second = firm(bench, *TWO_FULL, (SOFT, "16:13:19", {"mold": 1}))
    # A minute more than the clock's 199 s; the other mold waits longer in proportion.
    assert (first.at[11:19], second.at[11:19]) == ("16:14:19", "16:15:19")
    assert first.longer == second.longer == pytest.approx(259 / RINGS_S, rel=1e-3)
    assert second.after_s.high == pytest.approx(259 / RINGS_S * 260, rel=1e-3)


def test_a_forgotten_mold_prolongs_the_others_no_more_than_twofold(bench):
    first, second = firm(bench, *TWO_FULL, (SOFT, "22:00:00", {"mold": 1}))
    assert first.longer == second.longer == 2


def test_a_mold_opened_soft_prolongs_those_filled_after_it(bench):
    (mold,) = firm(
        bench, *TWO_FULL, (SOFT, "16:12:30", {"mold": 1}), (OPENED, "16:13:40", {"mold": 1}),
        (OPENED, "16:14:40", {"mold": 2}), (FILLED, "16:20:00", {"mold": 1, "drawn_g": {"1": 57}}),
    )  # fmt: skip
    assert mold.at[11:19] == "16:23:30"
