"""What the demo bench shows of its past and of tomorrow at first sight."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest

from pour_player import SetClock
from pourwright import wire
from pourwright.actions.demo import fill_demo
from pourwright.actions.lot_charts import counted_lots, lot_charts
from pourwright.actions.port import World
from pourwright.actions.pour_books import pour_books
from pourwright.actions.pour_day_lay import next_day
from pourwright.shop.chart.standing import Standing


@pytest.fixture(scope="module")
def world(tmp_path_factory: pytest.TempPathFactory) -> World:
    folder: Path = tmp_path_factory.mktemp("past")
    made = dataclasses.replace(wire.world(folder / "bench.db"), clock=SetClock())
    fill_demo(made)
    return made


def test_flaws_have_limits_and_weights_are_too_few_to_say(world: World):
    with world.reading() as bench:
        found = lot_charts(counted_lots(bench))
    assert found.flash is not None
    assert found.mass is not None
    assert found.flash.standing is Standing.PROVISIONAL
    assert [lot.bad for lot in found.flash.lots if lot.bad > 5] == [9]
    assert found.mass.standing is Standing.TOO_FEW


def test_the_stock_holds_every_count_and_nothing_of_it_is_left(world: World):
    with world.reading() as bench:
        for it in counted_lots(bench)[1:]:
            sheet = bench.sheets.get(it.sheet)
            assert not pour_books(bench, sheet, it.count.entry).behind
            assert (bench.stock.lot(it.code).mg, bench.stock.lot(it.code).pieces) == (0, 0)


def test_tomorrow_is_laid_out_from_what_orders_want(world: World):
    today = world.clock.now()[:10]
    with world.reading() as bench:
        kept = next_day(bench, today)
    assert kept is not None
    assert kept.day.day > today
    assert kept.day.timetable is not None
    assert {it.look for it in kept.day.batches} == {"demo-look-marsh", "demo-look-shad"}
    assert kept.day.timetable.late_s == 0
