"""While the laptop is away the phone heats by the sheet's own table: never past the target."""

from __future__ import annotations

from typing import Any

import pytest

from pourwright.actions.demo import DEMO_DRAFT
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.guide_pour import guide_pour
from pourwright.web.bench.state import as_json, state_of
from pourwright.web.show import Settings
from ready_store import demo_bench

Made = dict[str, Any]


@pytest.fixture(scope="module")
def pour(tmp_path_factory: pytest.TempPathFactory) -> tuple[Made, float, float]:
    """The screens ahead of a fresh pour, its target and its hot limit."""
    world = demo_bench(tmp_path_factory.mktemp("bench"))
    sheet = freeze_sheet(world, DEMO_DRAFT)
    plan = sheet.plan["heat"][0]
    ahead = as_json(state_of(guide_pour(world, sheet.number), Settings()))["ahead"]
    return ahead, plan["target_c"], plan["limit_c"]


def tables(ahead: Made) -> list[list[Made]]:
    pads = [pad for it in ahead.values() for phase in it["phases"] for pad in phase["pads"]]
    return [pad["next_by"] for pad in pads if pad["next_by"]]


def looked_up(rows: list[Made], reads: float, unit: str) -> str:
    """The first row at or above a reading, else the last, as the page looks it up."""
    fit = sorted((row for row in rows if row["unit"] == unit), key=lambda row: row["from"])
    above = [row for row in fit if row["from"] >= reads]
    return str((above or fit[-1:])[0]["next"])


@pytest.mark.parametrize("unit", ["c", "f"])
def test_no_reading_at_the_target_or_above_leads_to_more_heat(
    pour: tuple[Made, float, float], unit: str
) -> None:
    ahead, target_c, _ = pour
    assert tables(ahead)
    for rows in tables(ahead):
        for above_k in range(0, 85, 5):
            reads = target_c + above_k
            key = looked_up(rows, reads if unit == "c" else reads * 1.8 + 32.1, unit)
            kinds = {pad["kind"] for phase in ahead[key]["phases"] for pad in phase["pads"]}
            assert "burst_begun" not in kinds, (reads, key)


def test_a_reading_near_the_hot_limit_stops_and_asks_for_another(
    pour: tuple[Made, float, float],
) -> None:
    ahead, _, limit_c = pour
    for rows in tables(ahead):
        (phase,) = ahead[looked_up(rows, limit_c - 1, "c")]["phases"]
        assert phase["name"] == "Stop heating"
        assert phase["caution"]
        (pad,) = phase["pads"]
        assert pad["kind"] == "cup_read"
        assert pad["next_by"] == rows


def test_a_cold_reading_leads_to_heat(pour: tuple[Made, float, float]) -> None:
    ahead, *_ = pour
    for rows in tables(ahead):
        (phase,) = ahead[looked_up(rows, 20.0, "c")]["phases"]
        assert [pad["kind"] for pad in phase["pads"]] == ["burst_begun"]
